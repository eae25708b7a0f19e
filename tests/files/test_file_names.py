"""Names of fields become names of files that every system takes and nobody mistakes."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.files.file_names import file_names

# What one system or another takes for a path, a wildcard, a stream or a pipe ("Naming Files,
# Paths, and Namespaces", documentation of the Win32 programming interface; POSIX.1-2017, 3.170).
FORBIDDEN = set('<>:"/\\|?*\0')
# Devices, by the same documentation; the superscript digits count as digits.
DEVICES = {"con", "prn", "aux", "nul"} | {f"{p}{n}" for p in ("com", "lpt") for n in "123456789¹²³"}
# Most bytes of a name on the common file systems.
MOST_BYTES = 255
# The longest that is put behind a name: the ending, and that of a file not yet whole.
BEHIND = len(".") + len(" 2026-06-20-sheet.html") + len(".4194304.part")

names = st.lists(st.text(max_size=200), max_size=8)


def one(name: str) -> str:
    (made,) = file_names([name])
    return made


@given(names)
@settings(max_examples=300, deadline=None)
def test_no_two_names_are_one_file_on_a_system_that_takes_capitals_and_small_ones_as_one(
    named: list[str],
) -> None:
    made = file_names(named)
    assert len(made) == len(named)
    folded = {unicodedata.normalize("NFC", name).casefold() for name in made}
    assert len(folded) == len(named)


@given(st.text(max_size=200))
@settings(max_examples=300, deadline=None)
def test_a_name_is_safe_on_every_system(name: str) -> None:
    made = one(name)
    assert made
    assert not set(made) & FORBIDDEN
    assert made.isprintable()
    assert not made.startswith((".", "-", "~", " "))
    assert not made.endswith((".", " "))
    assert made.partition(".")[0].lower() not in DEVICES


@pytest.mark.parametrize("device", sorted(DEVICES | {"CON", "Lpt1", " nul ", "aux.", "con.txt"}))
def test_a_device_is_no_file(device: str) -> None:
    assert one(device).partition(".")[0].lower() not in DEVICES


@pytest.mark.parametrize("name", ["x" * 200, "棉" * 200, "é" * 200, "🌱a" * 100, "a\u0301" * 99])
def test_a_long_name_leaves_room_for_what_stands_behind_it(name: str) -> None:
    assert len(one(name).encode("utf-8")) + BEHIND <= MOST_BYTES


@pytest.mark.parametrize(
    "twins",
    [
        ["Home 40", "Home 40"],
        ["Home 40", "home-40", "HOME_40"],
        ["\u00e9", "e\u0301"],
        ["straße", "STRASSE"],
        ["..", "/", ""],
        ["x" * 199 + "a", "x" * 199 + "b"],
        ["a", "a", "a-2"],
        ["a-2", "a", "a"],
    ],
)
def test_names_that_would_meet_in_one_file_are_told_apart(twins: list[str]) -> None:
    made = file_names(twins)
    assert len({unicodedata.normalize("NFC", name).casefold() for name in made}) == len(twins)


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Home 40", "Home-40"),
        ("../../etc/passwd", "etc-passwd"),
        ("a:b*c?", "a-b-c"),
        ("Río Hondo", "Río-Hondo"),
        ("棉田", "棉田"),
    ],
)
def test_a_name_is_still_read_in_its_file(name: str, file: str) -> None:
    assert one(name) == file


def test_the_first_of_several_keeps_its_name_whatever_follows() -> None:
    assert file_names(["Gin", "Gin", "Mill"])[0] == file_names(["Gin"])[0]
