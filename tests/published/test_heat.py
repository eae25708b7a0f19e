"""Heat on people, against published values.

The rule of the weather service is kept, not its chart: they differ at a few places, which
stand in the table ``heat_index_differs``.
"""

from __future__ import annotations

import numpy as np
import pytest

from quarterwalk.weather.heat_index import heat_index
from quarterwalk.weather.heat_risk import load_heat_rule
from tests.published.tables import numbers, read

RULE = read("heat_index")
WHOLE = read("heat_index_whole")
CHART = read("heat_index_chart")
DIFFERS = read("heat_index_differs")
BANDS = read("heat_bands")

ENDS = {"regression", "damp air added", "dry air taken off", "simple"}


def added_for_damp(temp_f, humidity):
    """Give what the rule adds to what the chart has: from 80 to 87 °F, over 85 %."""
    added = (humidity - 85) / 10 * (87 - temp_f) / 5
    return np.where((temp_f >= 80) & (temp_f <= 87) & (humidity > 85), added, 0)


@RULE.each()
def test_the_rule_of_the_weather_service(row):
    assert heat_index(float(row["temp_f"]), float(row["humidity"])) == RULE.near(row["heat_index"])


def test_the_table_has_a_row_for_every_branch_of_the_rule():
    assert {row["branch"].split(",")[0] for row in RULE.rows} == ENDS


@WHOLE.each()
def test_values_that_others_test_with(row):
    index = heat_index(float(row["temp_f"]), float(row["humidity"]))
    assert index == WHOLE.near(row["heat_index"])


@CHART.each()
def test_a_line_of_the_chart(row):
    printed, temp_f = numbers(row["heat_index"]), int(row["temp_f"])
    humidity = 40 + 5 * np.arange(printed.size)
    off = heat_index(temp_f, humidity) - added_for_damp(temp_f, humidity) - printed
    assert np.abs(off).max() == CHART.near(0)


@DIFFERS.each()
def test_where_chart_and_rule_differ_the_rule_is_kept(row):
    temp_f, humidity = int(row["temp_f"]), int(row["humidity"])
    index = float(heat_index(temp_f, humidity))
    assert index == DIFFERS.near(row["rule"])
    assert index - added_for_damp(temp_f, humidity) == DIFFERS.near(row["bare"])
    assert index - int(row["chart"]) == DIFFERS.near(row["more"])
    assert abs(index - int(row["chart"])) > 0.5


@BANDS.each()
def test_the_bands_of_the_package_are_the_published_ones(row):
    assert getattr(load_heat_rule(), row["number"]) == BANDS.near(row["fahrenheit"])


@pytest.mark.parametrize("name", ["moderate", "high", "very-high", "most_added"])
def test_each_of_them_names_its_source(name):
    assert "Using the Heat Index" in load_heat_rule().sources[name].citation
