"""Heat units of days: what must hold for every method, and a count along the drawn day."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from quarterwalk.weather.daily import WeatherError
from quarterwalk.weather.heat_units import (
    HEAT_METHODS,
    CutOff,
    double_sine,
    double_triangle,
    four_case,
    held_extremes,
    simple_average,
    single_sine,
    single_triangle,
)

BASE, CAP = 60.0, 86.0
CURVES = ("single-triangle", "double-triangle", "single-sine", "double-sine")
CAPPED = tuple(name for name in HEAT_METHODS if name != "four-case")

temperatures = st.floats(-40, 130)
extremes = st.tuples(temperatures, temperatures).map(sorted)
cutoffs = st.sampled_from(list(CutOff))
every_method = pytest.mark.parametrize("name", HEAT_METHODS)
every_curve = pytest.mark.parametrize("name", CURVES)
every_capped = pytest.mark.parametrize("name", CAPPED)


def heat(name, tmin, tmax, **lines):
    """Heat of days whose following night is like their own, so that all methods compare."""
    if name.startswith("double"):
        lines = {"next_tmin": np.asarray(tmin)[..., -1] if np.ndim(tmin) else tmin} | lines
    return HEAT_METHODS[name](tmin, tmax, **lines)


def capped(name, tmin, tmax, cutoff=CutOff.HORIZONTAL):
    return heat(name, tmin, tmax, base=BASE, cap=CAP, cutoff=cutoff)


def flank(name, start, end):
    """Temperature on the way from one extreme to the next, at very many even times."""
    way = np.linspace(0.0, 1.0, 40_001)
    if name.endswith("sine"):
        way = (1 - np.cos(np.pi * way)) / 2
    return start + (end - start) * way


def counted(temperature, cutoff):
    """Heat counted along the day, time by time."""
    warm = np.maximum(temperature - BASE, 0)
    hot = np.maximum(temperature - CAP, 0)
    if cutoff is CutOff.VERTICAL:
        warm = np.where(temperature > CAP, 0, warm)
        hot = 0 * hot
    elif cutoff is CutOff.INTERMEDIATE:
        hot = 2 * hot
    return np.trapezoid(warm - hot, dx=1 / (len(temperature) - 1))


@settings(max_examples=60)
@given(day=extremes, night=temperatures, cutoff=cutoffs)
@every_curve
def test_the_closed_form_is_the_count_along_the_day(name, day, night, cutoff):
    low, high = day
    after, more = (night, {"next_tmin": night}) if name.startswith("double") else (low, {})
    ways = [flank(name, low, high), flank(name, high, after)]
    expected = max(np.mean([counted(way, cutoff) for way in ways]), 0)
    got = HEAT_METHODS[name](low, high, base=BASE, cap=CAP, cutoff=cutoff, **more)
    # a time of the count may fall on either side of the cap, where the vertical cut-off jumps
    assert got == pytest.approx(expected, abs=2e-3)


@given(day=extremes)
@every_method
def test_heat_is_never_below_0(name, day):
    assert heat(name, *day) >= 0


@given(day=extremes, night=temperatures, cutoff=cutoffs)
@every_curve
def test_no_cut_off_takes_more_than_there_is(name, day, night, cutoff):
    more = {"next_tmin": night} if name.startswith("double") else {}
    assert heat(name, *day, base=BASE, cap=CAP, cutoff=cutoff, **more) >= 0


@given(day=st.tuples(st.floats(BASE, CAP), st.floats(BASE, CAP)).map(sorted), cutoff=cutoffs)
@example(day=[60.211162576117644, CAP], cutoff=CutOff.VERTICAL)
@every_method
def test_a_day_that_crosses_no_line_counts_its_mean(name, day, cutoff):
    mean = pytest.approx(sum(day) / 2 - BASE, abs=1e-9)
    assert heat(name, *day) == mean
    if name in CAPPED:
        assert capped(name, *day) == mean
    if name in CURVES:
        assert capped(name, *day, cutoff) == mean


@given(day=st.tuples(st.floats(CAP, 130), st.floats(CAP, 130)).map(sorted))
@every_capped
def test_a_day_all_over_the_cap_counts_the_whole_height(name, day):
    assert capped(name, *day) == pytest.approx(CAP - BASE, abs=1e-9)


@given(day=st.tuples(st.floats(CAP + 0.01, 130), st.floats(CAP + 0.01, 130)).map(sorted))
@every_curve
def test_a_day_all_over_the_cap_stands_still_by_the_vertical_cut_off(name, day):
    assert capped(name, *day, CutOff.VERTICAL) == pytest.approx(0, abs=1e-9)


@given(day=st.tuples(st.floats(-40, BASE), st.floats(-40, BASE)).map(sorted), cutoff=cutoffs)
@every_method
def test_a_day_all_under_the_base_counts_nothing(name, day, cutoff):
    assert heat(name, *day) == pytest.approx(0, abs=1e-9)
    if name in CURVES:
        assert capped(name, *day, cutoff) == pytest.approx(0, abs=1e-9)


@given(day=extremes, cooler=st.floats(0, 40), warmer=st.floats(0, 40))
@every_method
def test_a_warmer_day_never_counts_less(name, day, cooler, warmer):
    low, high = day
    assert heat(name, low, high + warmer) >= heat(name, low - cooler, high) - 1e-9


@given(day=extremes, cutoff=cutoffs)
@every_curve
def test_each_harder_cut_off_takes_more(name, day, cutoff):
    free, horizontal = heat(name, *day, base=BASE), capped(name, *day)
    assert free >= horizontal - 1e-9
    assert horizontal >= capped(name, *day, cutoff) - 1e-9


@given(day=extremes, night=temperatures)
def test_a_sine_never_counts_less_than_a_triangle(day, night):
    assert single_sine(*day) >= single_triangle(*day) - 1e-9
    assert double_sine(*day, next_tmin=night) >= double_triangle(*day, next_tmin=night) - 1e-9


@given(days=st.lists(extremes, min_size=2, max_size=8), cut=st.integers(1, 7), night=temperatures)
@every_method
def test_days_add_up_wherever_they_are_parted(name, days, cut, night):
    cut = min(cut, len(days) - 1)
    low, high = np.array(days).T
    nights = [{"next_tmin": at} if name.startswith("double") else {} for at in (night, low[cut])]
    whole = HEAT_METHODS[name](low, high, **nights[0]).sum()
    first = HEAT_METHODS[name](low[:cut], high[:cut], **nights[1]).sum()
    rest = HEAT_METHODS[name](low[cut:], high[cut:], **nights[0]).sum()
    assert first + rest == pytest.approx(whole, abs=1e-9)


@every_capped
def test_stations_and_years_at_once_are_as_one_by_one(name):
    rng = np.random.default_rng(5)
    low = rng.normal(62, 12, (3, 2, 6))
    high = low + rng.gamma(2, 8, low.shape)
    got = heat(name, low, high, base=BASE, cap=CAP)
    nights = np.concatenate([low[..., 1:], low[..., -1:]], axis=-1)
    for at in np.ndindex(low.shape):
        more = {"next_tmin": nights[at]} if name.startswith("double") else {}
        alone = HEAT_METHODS[name](low[at], high[at], base=BASE, cap=CAP, **more)
        assert got[at] == pytest.approx(alone, abs=1e-12)
        assert np.ndim(alone) == 0


def test_one_lowest_goes_with_many_highest():
    assert single_triangle(50, [60, 70, 80]) == pytest.approx([0, 2.5, 400 / 60])


@every_method
def test_a_missing_temperature_leaves_the_day_unknown(name):
    got = heat(name, [70, np.nan, 70, np.nan], [80, 80, np.nan, 40])
    assert np.isnan(got[1:]).all()
    if not name.startswith("double"):
        assert got[0] == pytest.approx(15)


@pytest.mark.parametrize("method", [double_triangle, double_sine])
def test_two_half_days_need_the_next_lowest(method):
    low, high = [[62, 64], [66, 68]], [[80, 82], [84, 86]]
    unknown = method(low, high)
    known = method(low, high, next_tmin=[70, 72])
    assert np.isnan(unknown[:, -1]).all()
    assert known == pytest.approx(np.array([[11.5, 14.5], [15.5, 18]]))
    assert unknown[:, 0] == pytest.approx(known[:, 0])


@pytest.mark.parametrize("method", [double_triangle, double_sine])
def test_the_night_after_may_be_warmer_than_the_day(method):
    assert method(62, 70, next_tmin=74) == pytest.approx((6 + 12) / 2)


@pytest.mark.parametrize(("flat", "expected"), [(59, 0), (60, 0), (61, 1), (86, 26), (90, 26)])
@every_capped
def test_a_day_with_one_temperature_counts_it(name, flat, expected):
    assert capped(name, flat, flat) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("cutoff", "flat", "expected"),
    [
        ("horizontal", 90, 26),
        ("horizontal", 120, 26),
        ("intermediate", 90, 22),
        ("intermediate", 120, 0),
        ("vertical", 86, 26),
        ("vertical", 90, 0),
    ],
)
@every_curve
def test_what_a_flat_day_over_the_cap_is_worth(name, cutoff, flat, expected):
    assert capped(name, flat, flat, CutOff(cutoff)) == pytest.approx(expected)


@every_curve
def test_a_swing_next_to_nothing_divides_by_nothing(name):
    assert capped(name, 0.0, 5e-324) == 0
    assert capped(name, 70.0, np.nextafter(70.0, 71.0)) == pytest.approx(10)


@every_method
def test_no_days_have_no_heat(name):
    assert HEAT_METHODS[name]([], []).shape == (0,)


@every_method
def test_a_lowest_above_its_highest_is_refused(name):
    with pytest.raises(ValueError, match=r"got 85 and 70 \(1 such days\)"):
        HEAT_METHODS[name]([60, 85], [90, 70])


@pytest.mark.parametrize("cap", [50.0, 60.0, np.nan, np.inf])
@every_method
def test_a_cap_must_lie_above_the_base(name, cap):
    with pytest.raises(WeatherError, match="the cap must be above the base, got base 60"):
        HEAT_METHODS[name](70, 80, base=60, cap=cap)


@every_method
def test_a_base_must_be_a_number(name):
    with pytest.raises(WeatherError, match="the base must be a number, got nan"):
        HEAT_METHODS[name](70, 80, base=np.nan)


@pytest.mark.parametrize("cutoff", [CutOff.INTERMEDIATE, CutOff.VERTICAL])
@every_method
def test_a_cut_off_without_a_cap_is_refused(name, cutoff):
    with pytest.raises(WeatherError, match="needs a cap; give one"):
        HEAT_METHODS[name](70, 80, cutoff=cutoff)


@pytest.mark.parametrize("cutoff", [CutOff.INTERMEDIATE, CutOff.VERTICAL])
@pytest.mark.parametrize("method", [simple_average, held_extremes])
def test_a_mean_knows_no_time_over_the_cap(method, cutoff):
    with pytest.raises(ValueError, match="needs the course of the day"):
        method(70, 80, cap=CAP, cutoff=cutoff)


def test_the_four_cases_know_no_cap():
    with pytest.raises(ValueError, match="knows no cap, got 86; leave it out"):
        four_case(70, 80, cap=CAP)
