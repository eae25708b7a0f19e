"""The packaged guidelines hold the numbers that their sources give, and say which source."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from quarterwalk.errors import UnknownGuideline
from quarterwalk.guideline import SourceKind, guideline_names, load_guideline
from quarterwalk.guideline.shelf import edition_order

PACKAGE = files("quarterwalk.guideline")
PACKS = sorted(Path(str(PACKAGE)).glob("packs/*/*/guideline.toml"))

# Published rules, by region: (weeks or all, low, high), floors by week, season.
# Sources: county scouting report, west Texas, 2019-07-05 (southern-high-plains); county
# posts 2017 and 2018 (mid-coast); newsletters 2018 and 2020 (upper-coast); farm press,
# about 2011 (coastal-bend); ENTO-075, Texas, 2018, from memory (blacklands); state
# extension (oklahoma); state extension entomology page (kansas); state extension 2012
# and 2014 (tennessee-sweep).
RULES = {
    "southern-high-plains": ("terminal", [((), 25, 30)], "first-bloom"),
    "mid-coast": ("terminal", [((), 15, 15)], "first-bloom"),
    "upper-coast": ("terminal", [((), 15, 25)], "first-bloom"),
    "coastal-bend": ("terminal", [((), 10, 15)], "7-days-after-first-bloom"),
    "blacklands": ("terminal", [((), 10, 15)], "after-week-3"),
    "oklahoma": ("terminal", [((), 30, 45)], "after-week-3"),
    "kansas": ("terminal", [((), 25, 40)], "after-week-3"),
    "tennessee-sweep": ("sweep", [((1, 2), 16, 16), ((3,), 30, 30)], "after-week-3"),
}

# Keys that hold a whole number which is no number of the trade.
STRUCTURE = {"schema", "weeks", "year"}


def numbers_without_source(value: Any, path: str = "") -> Iterator[str]:
    """Walk the tree: a number's own table must name a source."""
    if isinstance(value, dict):
        for key, item in value.items():
            is_number = isinstance(item, int | float) and not isinstance(item, bool)
            if is_number and key not in STRUCTURE and "source" not in value:
                yield f"{path}.{key}"
            elif key not in STRUCTURE:
                yield from numbers_without_source(item, f"{path}.{key}")
    elif isinstance(value, list):
        for item in value:
            if isinstance(item, int | float):
                yield path
            yield from numbers_without_source(item, path)


def test_the_shelf_holds_the_eight_regions():
    assert set(guideline_names()) == set(RULES)


@pytest.mark.parametrize("name", RULES)
def test_each_line_and_season_is_what_its_source_says(name):
    method, lines, season_end = RULES[name]
    rule = load_guideline(name)
    assert (rule.method, rule.season_end) == (method, season_end)
    assert [(x.weeks, x.low, x.high) for x in rule.lines] == lines


def test_the_high_plains_floors_fall_week_by_week_and_the_last_holds_on():
    rule = load_guideline("southern-high-plains")
    floors = [rule.floor_for(week).floor for week in (1, 2, 3, 4, 6)]
    assert floors == [Fraction(90, 100), Fraction(85, 100), *3 * [Fraction(75, 100)]]
    assert [name for name in RULES if load_guideline(name).floors] == ["southern-high-plains"]


def test_only_kansas_counts_blasted_squares_from_one_in_ten():
    rule = load_guideline("kansas")
    assert (rule.blasted.at_least, rule.blasted.well_over) == (Fraction(1, 10), Fraction(15, 100))
    assert [name for name in RULES if load_guideline(name).blasted] == ["kansas"]


def test_only_the_sweep_net_line_is_halved_and_at_four_fifths_set():
    rule = load_guideline("tennessee-sweep")
    assert rule.half_line.at_or_below == Fraction(4, 5)
    assert [name for name in RULES if load_guideline(name).half_line] == ["tennessee-sweep"]
    assert rule.reads_squares
    assert not rule.needs_set


def test_the_sweep_net_line_rises_in_week_three_and_the_last_line_holds_on():
    rule = load_guideline("tennessee-sweep")
    assert [rule.line_for(week).low for week in (1, 2, 3, 4, None)] == [16, 16, 30, 30, 30]


def test_a_line_may_be_chosen_inside_the_published_range_only():
    assert load_guideline("southern-high-plains").allowed_line() == (25, 30)
    assert load_guideline("mid-coast").allowed_line() == (15, 15)
    assert load_guideline("tennessee-sweep").allowed_line() is None


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.parts[-3])
def test_every_pack_fits_the_schema_and_stands_in_its_own_folder(pack):
    schema = json.loads(PACKAGE.joinpath("schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    content = tomllib.loads(pack.read_text("utf-8"))
    assert not list(Draft202012Validator(schema).iter_errors(content))
    head = content["guideline"]
    assert (head["name"], head["edition"]) == pack.parts[-3:-1]


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.parts[-3])
def test_every_number_of_a_pack_has_a_source_that_the_pack_describes(pack):
    content = tomllib.loads(pack.read_text("utf-8"))
    assert not list(numbers_without_source(content))
    rule = load_guideline(content["guideline"]["name"])
    assert rule.sources
    assert all(source.kind is not SourceKind.OWN_RULE for source in rule.sources)


def test_the_walk_through_the_tree_sees_a_number_without_source():
    assert list(numbers_without_source({"a": {"value": 3}})) == [".a.value"]
    assert not list(numbers_without_source({"a": {"value": 3, "source": "x"}}))


@pytest.mark.parametrize("name", RULES)
def test_every_source_of_a_pack_is_used(name):
    rule = load_guideline(name)
    used = {rule.season_source, *(x.source for x in (*rule.lines, *rule.floors, *rule.notes))}
    assert set(rule.sources) == used


def test_a_misspelt_region_is_told_the_closest_name():
    with pytest.raises(UnknownGuideline, match="Closest: oklahoma"):
        load_guideline("oklahma")


@pytest.mark.parametrize("name", ["", "..", "../packs", "kansas/2026.1", "/"])
def test_a_name_cannot_lead_out_of_the_shelf(name):
    with pytest.raises(UnknownGuideline):
        load_guideline(name)


def test_the_tenth_edition_of_a_year_is_newer_than_the_second():
    assert edition_order("2026.10") > edition_order("2026.2") > edition_order("2025.11")


def test_recalled_figures_say_that_they_are_from_memory():
    (line,) = load_guideline("blacklands").lines
    assert line.source.citation == ("State guide, ENTO-075, Texas, 2018 (from memory, not checked)")
