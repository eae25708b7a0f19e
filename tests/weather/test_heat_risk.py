"""Bands of the heat index, and what is said at each."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.guideline.rule import SourceKind
from quarterwalk.weather.heat_index import heat_index
from quarterwalk.weather.heat_risk import (
    HeatBand,
    band_in_sun,
    cautions_without_number,
    heat_band,
    heat_cautions,
    in_full_sun,
    load_heat_rule,
)


def at_three(index_f):
    return heat_cautions(index_f, at="15:00")


@pytest.mark.parametrize(
    ("index_f", "band"),
    [
        (90.9, HeatBand.LOWER),
        (91, HeatBand.MODERATE),
        (102.9, HeatBand.MODERATE),
        (103, HeatBand.HIGH),
        (115, HeatBand.HIGH),
        (115.1, HeatBand.VERY_HIGH),
    ],
)
def test_a_border_belongs_to_the_band_that_the_guide_or_caution_says(index_f, band):
    assert heat_band(index_f) is band


def test_an_unknown_heat_index_has_no_band_and_no_cautions():
    assert heat_band(math.nan) is None
    assert heat_cautions(math.nan, at="15:00") == ()


def test_full_sun_adds_what_the_data_say():
    assert in_full_sun(96.0) == 96 + load_heat_rule().sun_adds_f


def test_in_the_sun_the_cautions_are_those_of_the_next_band():
    assert [band_in_sun(band) for band in HeatBand] == [
        HeatBand.MODERATE,
        HeatBand.HIGH,
        HeatBand.VERY_HIGH,
        HeatBand.VERY_HIGH,
    ]


def test_cautions_open_with_shade_and_sun_and_end_with_whose_rules_go_first():
    first, *_, last = heat_cautions(96.4, at="15:00")
    assert first.startswith("The highest heat index is 96 °F, at 15:00. It is for shade;")
    assert "111 °F" in first
    assert "employer's rules and local law" in last


@pytest.mark.parametrize("index_f", [70, 95, 110, 130])
def test_what_to_do_when_someone_is_confused_is_always_said(index_f):
    assert any("confused" in line and "emergency" in line for line in at_three(index_f))


@pytest.mark.parametrize(
    "word", ["water", "shade", "Rest", "Walk with someone", "signs", "first days"]
)
def test_the_usual_cautions_are_all_there(word):
    assert any(word in line for line in at_three(95))


def test_only_the_hottest_bands_put_walks_off():
    off = "Put off every walk"
    assert any(off in line for line in at_three(104))
    assert not any(off in line for line in at_three(102))


@given(st.floats(0, 160), st.floats(0, 160))
def test_more_heat_never_takes_a_caution_away(one, other):
    less, more = sorted((one, other))
    assert set(at_three(less)[1:]) <= set(at_three(more)[1:])


@given(st.floats(0, 160))
def test_hours_that_are_not_known_make_no_caution_milder(index_f):
    first, *rest = heat_cautions(index_f, at="13:00", known="7:00 to 13:00")
    assert rest == list(at_three(130)[1:])
    assert first.startswith("Of the hours known, 7:00 to 13:00, the highest heat index is ")
    assert f"is {round(index_f)} °F, at 13:00; it may get hotter" in first


def test_without_a_number_the_mildest_cautions_are_told_and_what_heat_adds():
    *mildest, hotter, last = cautions_without_number()
    assert (*mildest, last) == at_three(60)[1:]
    assert hotter.startswith("In greater heat also:")
    for word in ("early in the morning", "when you rest", "put off every walk"):
        assert word in hotter


def test_that_the_next_band_holds_each_time_is_a_rule_of_this_project():
    sources = load_heat_rule().sources
    assert sources["bands_in_sun"].kind is SourceKind.OWN_RULE
    assert {sources[name].kind for name in ("moderate", "high", "very-high", "most_added")} == {
        SourceKind.PUBLISHED
    }


@given(st.floats(60, 140), st.floats(0, 100))
def test_what_is_told_of_the_air_alone_is_no_more_than_any_humidity_makes_of_it(air_f, humidity):
    assert float(heat_index(air_f, 0.0)) <= float(heat_index(air_f, humidity)) + 0.5


@given(st.floats(60, 140))
def test_cautions_by_the_air_are_no_milder_than_those_of_the_driest_air(air_f):
    least = round(float(heat_index(air_f, 0.0)))
    assert set(at_three(least)[1:]) <= set(cautions_without_number(air_f))


def test_air_that_is_not_known_is_not_told():
    assert cautions_without_number(math.nan) == cautions_without_number()
    assert "known to reach 99 °F" in cautions_without_number(99.0)[0]
