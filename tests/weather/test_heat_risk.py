"""Bands of the heat index, and what is said at each."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.weather.heat_risk import (
    HeatBand,
    band_in_sun,
    heat_band,
    heat_cautions,
    in_full_sun,
    load_heat_rule,
)


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
    assert heat_cautions(math.nan) == ()


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
    first, *_, last = heat_cautions(96.4)
    assert "96 °F is for shade" in first
    assert "111 °F" in first
    assert "employer's rules and local law" in last


@pytest.mark.parametrize("index_f", [70, 95, 110, 130])
def test_what_to_do_when_someone_is_confused_is_always_said(index_f):
    assert any("confused" in line and "emergency" in line for line in heat_cautions(index_f))


@pytest.mark.parametrize(
    "word", ["water", "shade", "Rest", "Walk with someone", "signs", "first days"]
)
def test_the_usual_cautions_are_all_there(word):
    assert any(word in line for line in heat_cautions(95))


def test_only_the_hottest_bands_put_walks_off():
    off = "Put off every walk"
    assert any(off in line for line in heat_cautions(104))
    assert not any(off in line for line in heat_cautions(102))


@given(st.floats(0, 160), st.floats(0, 160))
def test_more_heat_never_takes_a_caution_away(one, other):
    less, more = sorted((one, other))
    assert set(heat_cautions(less)[1:]) <= set(heat_cautions(more)[1:])
