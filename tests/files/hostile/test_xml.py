"""KML that would read other files, or grow without end, is refused unread."""

from __future__ import annotations

from pathlib import Path

import pytest

from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.boundary_limits import DEEPEST, MOST_ELEMENTS
from tests.files.drawings import block, kml, placed, placemark, refusal

LAUGHS = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))
SECRET = "must never be read"


@pytest.mark.parametrize(
    "head",
    [
        '<!DOCTYPE kml [<!ENTITY secret SYSTEM "secret.txt">]>',
        '<!DOCTYPE kml [<!ENTITY % more SYSTEM "secret.txt"> %more;]>',
        '<!DOCTYPE kml SYSTEM "secret.txt">',
        '<!DOCTYPE kml PUBLIC "a" "secret.txt">',
        f'<!DOCTYPE kml [<!ENTITY l0 "ha">{LAUGHS}<!ENTITY secret "&l9;">]>',
        f'<!DOCTYPE kml [<!ENTITY secret "{"x" * 100_000}">]>',
    ],
)
def test_entities_of_any_kind_are_refused(tmp_path: Path, head: str) -> None:
    placed(tmp_path, "secret.txt", SECRET.encode())
    data = kml(placemark(block(), "&secret;" * 1000), head=head)
    told = refusal(placed(tmp_path, "f.kml", data))
    assert "without a DOCTYPE" in told
    assert SECRET not in told


def test_an_entity_that_is_not_declared_is_refused(tmp_path: Path) -> None:
    assert refusal(placed(tmp_path, "f.kml", kml(placemark(block(), "&secret;"))))


def test_folders_in_folders_without_end_are_refused(tmp_path: Path) -> None:
    deep = kml("<Folder>" * 100_000, "</Folder>" * 100_000)
    assert f"at most {DEEPEST} elements" in refusal(placed(tmp_path, "f.kml", deep))


def test_elements_without_end_are_refused(tmp_path: Path) -> None:
    many = kml("<a/>" * (MOST_ELEMENTS + 1))
    assert f"{MOST_ELEMENTS:,} elements" in refusal(placed(tmp_path, "f.kml", many))


def test_blanks_without_end_do_no_harm(tmp_path: Path) -> None:
    ring = placemark(block(), "A").replace("\n", "\n" + " " * 2_000_000, 1)
    found = read_fields(placed(tmp_path, "f.kml", kml(ring)))
    assert [field.name for field in found.fields] == ["A"]
