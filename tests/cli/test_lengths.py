"""Areas and lengths as they are said, worked by hand from what a foot and an acre are.

One foot is 0.3048 m, one mile 5280 feet, one acre 0.40468564224 hectares (NIST Special
Publication 811, 2008, appendix B).
"""

from __future__ import annotations

import pytest

from quarterwalk.cli.lengths import area_words, length_words


@pytest.mark.parametrize(
    ("acres", "us", "metric"),
    [
        (40.0, "40.0 acres", "16.2 hectares"),
        (2.5, "2.5 acres", "1.0 hectares"),
        (120.0, "120 acres", "48.6 hectares"),
        (640.0, "640 acres", "259 hectares"),
    ],
)
def test_an_area_is_said_in_the_units_asked_for(acres: float, us: str, metric: str) -> None:
    assert area_words(acres, metric=False) == us
    assert area_words(acres, metric=True) == metric


@pytest.mark.parametrize(
    ("metres", "us", "metric"),
    [
        (30.48, "100 feet", "30 m"),
        (100.0, "330 feet", "100 m"),
        (609.0, "2,000 feet", "610 m"),
        (1609.344, "1.0 miles", "1.6 km"),
        (2414.016, "1.5 miles", "2.4 km"),
        (159_325.0, "99.0 miles", "159 km"),
        (160_934.4, "100 miles", "161 km"),
        (13_541_019.0, "8,414 miles", "13,541 km"),
    ],
)
def test_a_length_is_said_in_the_units_asked_for(metres: float, us: str, metric: str) -> None:
    assert length_words(metres, metric=False) == us
    assert length_words(metres, metric=True) == metric


def test_a_longer_way_is_never_said_to_be_shorter() -> None:
    unit = {"feet": 0.3048, "miles": 1609.344, "m": 1.0, "km": 1000.0}
    for metric in (False, True):
        told = [length_words(metres, metric=metric).split() for metres in range(0, 4000, 7)]
        said = [float(number.replace(",", "")) * unit[name] for number, name in told]
        for metres, got in zip(range(0, 4000, 7), said, strict=True):
            assert abs(got - metres) <= max(10, 81)
        rising = zip(said, said[1:], strict=False)
        assert all(later >= sooner or sooner - later < 20 for sooner, later in rising)
