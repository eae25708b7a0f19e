"""A guideline's page says everything that a scout needs to apply it, and no more."""

from __future__ import annotations

import dataclasses
import json

import pytest

from quarterwalk.guideline import (
    guideline_json,
    guideline_names,
    guideline_page,
    load_guideline,
    shelf_page,
)


@pytest.mark.parametrize("name", guideline_names())
def test_a_page_keeps_its_width_and_ends_with_the_label(name):
    lines = guideline_page(load_guideline(name), width=60).splitlines()
    assert max(map(len, lines)) <= 60
    assert "label and local rules" in " ".join(lines[-2:])


def test_the_high_plains_page_shows_line_range_floors_and_the_trials_against_them():
    page = " ".join(guideline_page(load_guideline("southern-high-plains")).split())
    for part in (
        "25 insects per 100 terminals",
        "range 25 to 30",
        "week 1: below 90 %",
        "week 3 and later: below 75 %",
        "begins at first square, ends at first bloom",
        "Parker 2009",
        "Mid-Coast trial of 2010",
    ):
        assert part in page


def test_the_page_of_an_own_guideline_says_so():
    own = dataclasses.replace(load_guideline("kansas"), own=True)
    assert "your own file" in guideline_page(own)
    assert "your own file" not in guideline_page(load_guideline("kansas"))


def test_the_shelf_has_one_aligned_line_for_each_region():
    head, *rows = shelf_page().splitlines()
    assert [row.split()[0] for row in rows] == list(guideline_names())
    assert all(row[head.index("season") - 1] == " " for row in rows)
    assert max(map(len, [head, *rows])) <= 110


@pytest.mark.parametrize("name", guideline_names())
def test_the_json_names_a_described_source_for_every_number(name):
    shown = json.loads(json.dumps(guideline_json(load_guideline(name))))
    known = {source["key"] for source in shown["sources"]}
    numbered = [*shown["lines"], *shown["floors"], shown["season"]]
    numbered += [shown[key] for key in ("blasted", "half_line") if shown[key]]
    assert all(part["source"] in known for part in numbered)


def test_the_json_gives_shares_as_fractions_and_lines_as_whole_numbers():
    shown = guideline_json(load_guideline("southern-high-plains"))
    assert (shown["lines"][0]["low"], shown["lines"][0]["high"]) == (25, 30)
    assert [floor["floor"] for floor in shown["floors"]] == [0.9, 0.85, 0.75]
