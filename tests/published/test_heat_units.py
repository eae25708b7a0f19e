"""Heat units against other people's tables, their sums and their misprints."""

from __future__ import annotations

import numpy as np

from quarterwalk.weather.heat_units import HEAT_METHODS, single_triangle
from tests.published.tables import read

DAYS = read("heat_days")
SUMS = read("heat_sums")
UNIT_VALUES = read("heat_unit_values")
MISPRINTS = read("heat_misprints")
AVERAGES = read("heat_averages")
TRIANGLE = read("heat_triangle")
CURVES = read("heat_curves")


def heat_of(row, **given):
    """Heat units of the days of a row; what the row does not say is given."""
    said = {name: float(row[name]) for name in ("base", "cap", "next_tmin") if row.get(name)}
    if not row["method"].startswith("double"):
        said.pop("next_tmin", None)
    low, high = (np.array(row[name].split(), np.float64) for name in ("tmin", "tmax"))
    return HEAT_METHODS[row["method"]](low, high, **given | said).sum()


@DAYS.each()
def test_a_day_of_a_station(row):
    assert heat_of(row, base=12, cap=33) == DAYS.near(row["heat"])


@SUMS.each()
def test_days_in_a_row(row):
    assert heat_of(row) == SUMS.near(row["sum"])


@UNIT_VALUES.each()
def test_a_day_under_a_cap(row):
    assert heat_of(row, base=12, cap=33) == UNIT_VALUES.near(row["heat"])


@MISPRINTS.each()
def test_a_misprint_does_not_come_out(row):
    got = single_triangle(float(row["tmin"]), float(row["tmax"]), base=float(row["base"]), cap=33)
    assert got == MISPRINTS.near(row["right"])
    assert float(row["printed"]) - got == MISPRINTS.near(row["over"])
    assert abs(float(row["over"])) > 1


@AVERAGES.each()
def test_a_day_by_its_mean(row):
    assert heat_of(row) == AVERAGES.near(row["heat"])


@TRIANGLE.each()
def test_a_day_of_the_planting_tables(row):
    assert heat_of({"method": "single-triangle"} | row) == TRIANGLE.near(row["heat"])


@CURVES.each()
def test_a_day_worked_out_apart(row):
    assert heat_of(row, base=60) == CURVES.near(row["heat"])


def test_a_sheet_that_halves_only_the_base_is_far_off():
    low, high = 70.0, 95.0
    halved_base = (high + low) - 60 / 2
    assert abs(HEAT_METHODS["simple-average"](low, high) - halved_base) > 100
