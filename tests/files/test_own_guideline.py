"""A guideline of your own is read exactly, or refused with the line of every fault."""

from __future__ import annotations

import json
import tempfile
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.errors import RefusedInput
from quarterwalk.files.own_guideline import read_guideline
from quarterwalk.guideline import guideline_json, guideline_page, load_guideline

EXAMPLE = Path(__file__).parents[2] / "examples" / "own-guideline.toml"

# Line numbers below are counted in this text by hand.
TEXT = """\
[guideline]
schema = 1
name = "mine"
edition = "2026.1"
title = "Mine"
region = "Here"
method = "terminal"
season = { from = "first-square", to = "first-bloom", source = "demo" }

[sources.demo]
title = "Demo (invented)"
kind = "own-rule"

[[lines]]
weeks = [1, 2]
per_100 = { value = 35, to = 40, unit = "insects per 100 terminals", source = "demo" }
[[lines]]
weeks = [3]
per_100 = { value = 35, unit = "insects per 100 terminals", source = "demo" }

[[floors]]
weeks = [1]
below = { value = 0.88, source = "demo" }
[[floors]]
weeks = [2, 3]
and_later = true
below = { value = 0.7, source = "demo" }
"""

# was, becomes, row, column, value, a part of what was expected
CASES = [
    ('title = "Mine"', "title = Mine", 5, None, "title = Mine", "TOML"),
    ("[[floors]]\nweeks = [1]", "[[floors]\nweeks = [1]", 21, None, "[[floors]", "TOML"),
    ('title = "Mine"', 'title = "Mine"\ntitle = "M"', 6, None, 'title = "M"', "TOML"),
    (
        'title = "Mine"',
        'title = "Mine"\ntitel = 1',
        6,
        "guideline.titel",
        "titel",
        "one of the keys",
    ),
    ('title = "Mine"\n', "", 1, "guideline.title", "", "given"),
    ('title = "Mine"', "title = 7", 5, "guideline.title", "7", "words"),
    ('title = "Mine"', 'title = " "', 5, "guideline.title", " ", "words"),
    ('"terminal"', '"shake"', 7, "guideline.method", "shake", "one of terminal"),
    ('"terminal"', '"sweep"', 16, "lines[1].per_100.unit", "insects per 100 terminals", "sweeps"),
    ('"2026.1"', "2026.1", 4, "guideline.edition", "2026.1", "in quotes"),
    ("schema = 1", "schema = 2", 2, "guideline.schema", "2", "1"),
    ("first-bloom", "cutout", 8, "guideline.season.to", "cutout", "after-week-3"),
    ('bloom", source = "demo"', 'bloom", source = "x"', 8, "guideline.season.source", "x", "demo"),
    ("to = 40", "to = 30", 16, "lines[1].per_100.to", "30", "at least 35"),
    ("value = 35, to", 'value = "35", to', 16, "lines[1].per_100.value", "35", "a number"),
    ("value = 35, to", "value = true, to", 16, "lines[1].per_100.value", "true", "a number"),
    ("value = 35, to", "value = nan, to", 16, "lines[1].per_100.value", "nan", "a number"),
    ("value = 35, to", "value = -inf, to", 16, "lines[1].per_100.value", "-inf", "a number"),
    ("value = 35, to", "value = 0, to", 16, "lines[1].per_100.value", "0", "above 0"),
    ("value = 35, to", "value = 1e-99999999, to", 16, "lines[1].per_100.value", "1E-99999999", ""),
    ("value = 35, unit", "unit", 19, "lines[2].per_100.value", "", "given"),
    ("value = 0.88", "value = 88", 23, "floors[1].below.value", "88", "0.85 for 85 %"),
    ('0.88, source = "demo"', "0.88", 23, "floors[1].below.source", "", "given"),
    ('0.88, source = "demo"', '0.88, source = "dmo"', 23, "floors[1].below.source", "dmo", "demo"),
    ("weeks = [3]", "weeks = [2, 3]", 18, "lines[2].weeks", "[2, 3]", "weeks from 3 on"),
    ("weeks = [3]", "weeks = [4]", 18, "lines[2].weeks", "[4]", "none left out"),
    ("weeks = [3]\n", "", 17, "lines[2].weeks", "", "more than one line"),
    ("weeks = [3]", "weeks = [0]", 18, "lines[2].weeks[1]", "0", "from 1 to 12"),
    ("weeks = [3]", "weeks = [3, 3]", 18, "lines[2].weeks", "[3, 3]", "once"),
    ("weeks = [3]", "weeks = []", 18, "lines[2].weeks", "[]", "squaring weeks"),
    ("weeks = [1]", "weeks = [1]\nand_later = true", 23, "floors[1].and_later", "true", "false"),
    ("and_later = true\n", "", 24, "floors[2].and_later", "", "goes on"),
    ("[sources.demo]", "[sources.Demo]", 10, "sources.Demo", "Demo", "small letters"),
]


def problems_of(path):
    with pytest.raises(RefusedInput) as refused:
        read_guideline(path)
    return refused.value.problems


@pytest.fixture
def written(tmp_path):
    def write(content):
        path = tmp_path / "mine.toml"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return write


def test_an_own_file_is_read_exactly_and_says_it_is_own(written):
    rule = read_guideline(written(TEXT))
    assert rule.own
    assert rule.line_for(2).high == 40
    assert rule.floor_for(1).floor == Fraction(88, 100)
    assert rule.floor_for(5).floor == Fraction(7, 10)
    assert rule.allowed_line() == (35, 35)


def test_the_example_is_sound_and_the_page_about_guidelines_shows_it():
    assert read_guideline(EXAMPLE).name == "example-county"
    page = EXAMPLE.parents[1] / "docs" / "guidelines.md"
    assert EXAMPLE.read_text("utf-8") in page.read_text("utf-8")


@pytest.mark.parametrize(("was", "becomes", "row", "column", "value", "expected"), CASES)
def test_a_fault_is_named_by_line_key_and_value(
    written, was, becomes, row, column, value, expected
):
    assert was in TEXT
    path = written(TEXT.replace(was, becomes, 1))
    first = problems_of(path)[0]
    assert (first.file, first.row, first.column) == (str(path), row, column)
    assert first.value == value
    assert expected in first.expected


def test_all_faults_are_told_together_in_the_order_of_the_file(written):
    path = written(TEXT.replace("0.88", "88").replace('"terminal"', '"shake"'))
    assert [p.row for p in problems_of(path)] == [7, 23]


def test_no_more_than_fifty_faults_are_told_and_the_rest_counted(written):
    many = TEXT + "".join(f"\n[x{n}]" for n in range(60))
    with pytest.raises(RefusedInput) as refused:
        read_guideline(written(many))
    assert (len(refused.value.problems), refused.value.more) == (50, 10)


def test_a_misspelt_key_is_told_the_closest_one(written):
    lacking, misspelt = problems_of(written(TEXT.replace("title =", "titel =", 1)))
    assert (lacking.row, lacking.column) == (1, "guideline.title")
    assert (misspelt.row, misspelt.hint) == (5, "Closest: title.")


def test_two_second_criteria_are_one_too_many(written):
    blasted = '[blasted]\nat_least = { value = 0.2, source = "demo" }\n'
    blasted += 'well_over = { value = 0.1, source = "demo" }\n'
    rows = [(p.row, p.column) for p in problems_of(written(TEXT + blasted))]
    assert rows == [(28, "blasted"), (30, "blasted.well_over.value")]


def test_a_file_that_is_not_utf8_is_refused_at_the_line_that_is_not(written):
    (problem,) = problems_of(written(TEXT.replace("Here", "Caf\xe9").encode("latin-1")))
    assert (problem.row, problem.expected) == (6, "UTF-8 text")


def test_an_empty_file_lacks_its_three_parts(written):
    assert [p.column for p in problems_of(written(""))] == ["guideline", "sources", "lines"]


@pytest.mark.parametrize(
    "content",
    [
        "#" + "\n" * 200_000,
        "a" + ".a" * 20_000 + " = 1",
        "a = " + "[\n" * 20_000,
        "a = " + "[" * 1_000,
        "a" + ".a" * 900 + " = 1",
        "a = " + "[" * 12 + "]" * 12,
        "a = " + "9" * 1_900 + "\nb = 1" + "_0" * 900,
        "a = " + "0x" + "f" * 1_900,
        "\x00",
        "a = 1e" + "9" * 1_000,
    ],
    ids=[
        "huge",
        "long-line",
        "deep",
        "deep-line",
        "dots",
        "nested",
        "digits",
        "hex",
        "null",
        "exponent",
    ],
)
def test_hostile_files_are_refused_like_any_other(written, content):
    assert problems_of(written(content))


def test_a_whole_number_of_endless_digits_is_refused_at_its_line(written, monkeypatch):
    monkeypatch.setattr("quarterwalk.files.own_guideline.LONGEST_LINE", 10_000)
    (problem,) = problems_of(written(TEXT + "x = " + "9" * 5_000))
    assert problem.row == 28


def test_a_folder_or_a_missing_file_is_refused(tmp_path):
    assert "can be read" in problems_of(tmp_path)[0].expected
    assert "can be read" in problems_of(tmp_path / "none.toml")[0].expected
    assert "can be read" in problems_of("a\0b")[0].expected


def test_a_key_with_control_characters_is_shown_and_not_sent_to_the_screen(written):
    (problem,) = problems_of(written(TEXT + '\n"\\u001b[2J" = 1\n'))
    assert "\x1b" not in problem.message


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(written):
    plain = read_guideline(written(TEXT))
    marked = read_guideline(written(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode()))
    assert marked == plain


@pytest.mark.parametrize(
    ("was", "becomes"), [("to = 40", "to = 41"), ("0.88", "0.89"), ("[1, 2]", "[1,2,3]")]
)
def test_the_hash_moves_with_any_number(written, was, becomes):
    before = read_guideline(written(TEXT)).hash
    text = TEXT.replace(was, becomes).replace(
        "weeks = [3]", "weeks = [4]" if "3]" in becomes else "weeks = [3]"
    )
    assert read_guideline(written(text)).hash != before


def test_the_hash_stays_with_comments_spaces_and_the_order_of_keys(written):
    before = read_guideline(written(TEXT)).hash
    text = TEXT.replace('title = "Mine"\nregion = "Here"', 'region="Here" # near\ntitle = "Mine"')
    text = text.replace("value = 0.88, source", "value = 0.880, source")
    assert text != TEXT
    assert read_guideline(written(text)).hash == before


def test_an_own_file_may_bear_a_packaged_name(written):
    rule = read_guideline(written(TEXT.replace('"mine"', '"kansas"')))
    assert (rule.name, rule.own) == (load_guideline("kansas").name, True)


CUTS = st.lists(
    st.tuples(
        st.integers(0, len(TEXT)),
        st.integers(0, 30),
        st.one_of(
            st.text(max_size=6),
            st.sampled_from(
                ["[", "]", "{", "}", '"', "'''", "=", "\n", "#", "nan", "1e999", "[[lines]]\n"]
                + ["[a.b]\n", "weeks = [1]\n", "0.5", "-1", "true", "2026-01-01", "\\u0000", "\0"]
            ),
        ),
    ),
    min_size=1,
    max_size=4,
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(CUTS)
def test_a_damaged_file_is_read_or_refused_and_never_ends_in_a_traceback(cuts):
    text = TEXT
    for at, gone, put in cuts:
        text = text[:at] + put + text[at + gone :]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "damaged.toml"
        path.write_bytes(text.encode("utf-8", "surrogatepass"))
        try:
            rule = read_guideline(path)
        except RefusedInput as refusal:
            problems = refusal.problems
        else:
            assert guideline_page(rule)
            assert json.dumps(guideline_json(rule))
            return
    assert problems
    assert all(problem.file == str(path) for problem in problems)
    assert all(problem.row is None or problem.row <= text.count("\n") + 1 for problem in problems)
