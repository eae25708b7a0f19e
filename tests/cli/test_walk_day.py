"""Sun and heat of a day, as ``quarterwalk weather --walk-on`` tells them."""

from __future__ import annotations

import json
import time

import pytest

from quarterwalk.cli import main

PLACE = ["--near", "33.6,-101.9"]
DAY = ["--walk-on", "2026-07-11"]


@pytest.fixture(autouse=True)
def _in_texas(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TZ", "America/Chicago")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def hours(*, temp=98, humidity=45):
    rows = [f"2026-07-11T{hour:02d}:00,{temp},{humidity}" for hour in range(24)]
    with open("hours.csv", "w", encoding="utf-8") as file:
        file.write("\n".join(["time,temp_f,humidity", *rows]))
    return "hours.csv"


def days():
    with open("days.csv", "w", encoding="utf-8") as file:
        file.write("date,tmin_f,tmax_f\n2026-07-11,70,98\n")
    return "days.csv"


def told(capsys, *words):
    assert main(["weather", *words, "--json"]) == 0
    return json.loads(capsys.readouterr().out)["walk_day"]


def test_the_sun_is_faced_in_the_east_in_the_morning_and_in_the_west_at_night(capsys):
    day = told(capsys, days(), *PLACE, *DAY)
    faces = {hour["time"][11:13]: hour["face"] for hour in day["hours"]}
    assert 60 < faces["08"] < 100
    assert 260 < faces["18"] < 300


def test_the_hours_overhead_lie_about_solar_noon(capsys):
    day = told(capsys, days(), *PLACE, *DAY)
    over = [hour["time"][11:13] for hour in day["hours"] if hour["overhead"]]
    assert over == ["13", "14", "15"]
    assert day["overhead"][0] < "2026-07-11T13:00" < "2026-07-11T15:00" < day["overhead"][1]


def test_heat_is_told_by_the_hour_with_its_band(capsys):
    # 98 °F and 45 %: the regression of the weather service gives 109 °F
    hour = told(capsys, hours(), *PLACE, *DAY)["hours"][0]
    assert hour["heat_index_f"] == pytest.approx(109, abs=0.6)
    assert hour["heat"] == "high"


def test_without_humidity_no_heat_index_is_told_and_the_usual_care_is(capsys):
    day = told(capsys, days(), *PLACE, *DAY)
    assert {hour["heat_index_f"] for hour in day["hours"]} == {None}
    assert main(["weather", days(), *PLACE, *DAY]) == 0
    assert "drink before you are thirsty" in " ".join(capsys.readouterr().out.split())


def test_cautions_are_printed_with_the_heat(capsys):
    assert main(["weather", hours(), *PLACE, *DAY]) == 0
    printed = " ".join(capsys.readouterr().out.split())
    assert "lean back from the plant" in printed
    assert "call emergency services at once" in printed


def test_a_day_without_a_place_is_refused(capsys):
    assert main(["weather", days(), *DAY]) == 2
    assert "--walk-on needs a place" in capsys.readouterr().err
