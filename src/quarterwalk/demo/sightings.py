"""What the demo's scouts saw of each crop between walks, drawn from the true season."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np
from scipy.special import ndtr

from quarterwalk.crop import load_needs
from quarterwalk.demo.district import DemoField, District
from quarterwalk.weather import HEAT_METHODS, DailyWeather

SEEN_COLUMNS = ("field", "date", "nodes", "plants", "pinhead", "squaring_branches", "bloom")
"""Columns of the table of what was seen."""

# The scouts' habits, all invented: a stand is looked at so many days before its true first
# square, again about that day, then by its branches, then for flowers. [days]
_STAND, _BRANCHES, _FLOWERS = 9, 10, 24
_PLANTS = 20
_COUNT_SD = 0.4  # nodes and branches, of a mean


def seen_rows(
    district: District, weather: DailyWeather, rng: np.random.Generator
) -> Iterator[list[str]]:
    """Draw what was seen of every field.

    Parameters
    ----------
    district : District
        The fields and their true days of first square.
    weather : DailyWeather
        The true weather.
    rng : numpy.random.Generator
        The dice.

    Yields
    ------
    list of str
        In the order of `SEEN_COLUMNS`, by field and day.
    """
    for field in district.fields:
        for day, seen in _looks(field, weather, rng):
            if day <= district.last_day:
                cells = {"field": field.name, "date": day.isoformat(), **seen}
                yield [cells.get(column, "") for column in SEEN_COLUMNS]


def _looks(
    field: DemoField, weather: DailyWeather, rng: np.random.Generator
) -> Iterator[tuple[date, dict[str, str]]]:
    needs, squared = load_needs(), field.squared
    stand = squared - timedelta(days=_STAND)
    short = _heat_between(weather, stand, squared) / needs.value("node_heat")
    nodes = needs.value("first_branch_node") - short + rng.normal(0, _COUNT_SD)
    yield stand, {"nodes": f"{max(nodes, 0):.1f}"}
    near = squared + timedelta(days=int(rng.integers(-1, 3)))
    past = _heat_between(weather, squared, near)
    pinhead = rng.binomial(_PLANTS, ndtr(past / needs.value("plants_heat")))
    yield near, {"plants": f"{_PLANTS}", "pinhead": f"{pinhead}"}
    branches = (_BRANCHES / needs.value("branch_days")) + needs.value("half")
    branches += rng.normal(0, _COUNT_SD)
    yield squared + timedelta(days=_BRANCHES), {"squaring_branches": f"{branches:.1f}"}
    bloom = field.dates.bloom
    looked = squared + timedelta(days=_FLOWERS) if bloom is None else bloom
    yield looked, {"bloom": "0" if bloom is None else "1"}


def _heat_between(weather: DailyWeather, first: date, last: date) -> float:
    """Heat after one day through another, below 0 where the second comes first."""
    needs = load_needs()
    early, late = sorted((first, last))
    days = weather.between(early, late)
    heat = HEAT_METHODS[needs.method](days.tmin_f, days.tmax_f, base=needs.base_f)
    return float(heat[1:].sum()) * (1 if first <= last else -1)
