"""The table of a season's days, what it stands on, and what its picture shows."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from quarterwalk.call import Verdict
from quarterwalk.crop import DayOdds, Event, Given, Seen
from quarterwalk.guideline import load_guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.report.season_days import days_note, days_of
from quarterwalk.report.season_drawn import season_drawn
from quarterwalk.report.season_footing import season_footing
from quarterwalk.report.season_report import SeasonDone
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.weather.daily import DayMark
from tests.report.made_seasons import PLANTED, clock, day, marked, weather

NEVER = SeasonDone()


def row(read, event):
    (found,) = [each for each in days_of(read) if each.event == event]
    return found


def test_the_events_stand_in_their_order_with_their_codes():
    rows = days_of(clock(day(6, 24)))
    assert [(each.event, each.code) for each in rows] == [
        ("emergence", "09"),
        ("four true leaves", "14"),
        ("first square", "51"),
        ("first bloom", "60"),
        ("cutout", ""),
    ]


def test_a_day_that_was_given_has_no_range():
    told = row(clock(day(6, 24), given=Given((day(6, 5), day(6, 5)))), "first square")
    assert (told.likely, told.span, told.known) == ("5 June", "", "given")
    assert told.alone


def test_a_bloom_given_for_a_day_to_come_stands_as_given():
    given = Given((day(6, 5), day(6, 5)), bloom_to_come=day(7, 1))
    told = row(clock(day(6, 24), given=given), "first bloom")
    assert (told.likely, told.span, told.known) == ("1 July", "", "given")
    drawn = season_drawn(clock(day(6, 24), given=given), NEVER)
    assert [mark.likely for mark in drawn.marks if mark.name == "first bloom"] == [day(7, 1)]
    assert drawn.weeks[-1][1] == day(6, 30)


def test_a_likely_day_without_a_range_is_told_as_unsure():
    """Cutout of a stand planted so late that it may as well not come in its season."""
    read = clock(day(7, 20), planted=day(7, 1))
    odds = read.odds[Event.CUTOUT]
    less = replace(odds, chance=0.7 * odds.chance / odds.chance.sum(), beyond=0.3)
    late = replace(read, odds={**read.odds, Event.CUTOUT: less})
    assert row(late, "cutout").span == "or later"


def test_what_was_seen_is_told_by_its_first_day():
    seen = (
        Seen(day(6, 10), plants=20, pinhead=4),
        Seen(day(6, 17), plants=20, pinhead=15),
        Seen(day(6, 20), plants=20, pinhead=19),
    )
    assert row(clock(day(6, 24), seen=seen), "first square").known == "seen by 17 June"


def test_a_count_a_day_before_the_likely_day_is_told_as_about():
    """Half and no more, on a cool day well before heat would have it: a day later is likelier."""
    told = row(clock(day(6, 11), seen=(Seen(day(6, 8), plants=20, pinhead=10),)), "first square")
    assert (told.likely, told.known) == ("9 June", "seen about 8 June")


def test_what_was_set_aside_is_no_sight():
    seen = (Seen(day(6, 12), plants=20, pinhead=14), Seen(day(6, 14), plants=20, pinhead=4))
    told = row(clock(day(6, 20), seen=seen), "first square")
    assert told.known == "from weather and sight"


def test_without_a_sight_it_is_worked_out_and_the_weather_says_nothing_else():
    for each in days_of(clock(day(6, 24))):
        assert each.known in ("from the weather", "counted back from first square")
        assert each.alone == ""


SQUARE_GIVEN = Given((day(6, 5), day(6, 5)))


@pytest.mark.parametrize(
    ("given", "seen", "event", "known"),
    [
        (SQUARE_GIVEN, (), "first bloom", "counted from first square as given"),
        (SQUARE_GIVEN, (), "cutout", "counted from first square as given"),
        (Given(bloom=day(6, 25)), (), "first square", "from the weather and what was given"),
        (
            replace(SQUARE_GIVEN, bloom=day(6, 30)),
            (),
            "cutout",
            "counted from first bloom as given",
        ),
        (
            SQUARE_GIVEN,
            (Seen(day(6, 20), plants=20, pinhead=18),),
            "cutout",
            "counted from first square as given",
        ),
        (
            SQUARE_GIVEN,
            (Seen(day(7, 1), bloom=True),),
            "cutout",
            "from weather and sight",
        ),
        (
            Given(bloom=day(6, 30)),
            (Seen(day(7, 1), bloom=True),),
            "cutout",
            "counted from first bloom as given",
        ),
        (None, (Seen(day(6, 20), plants=20, pinhead=18),), "cutout", "from weather and sight"),
    ],
)
def test_what_was_given_before_an_event_is_named_ahead_of_sight_and_weather(
    given, seen, event, known
):
    assert row(clock(day(7, 2), given=given, seen=seen), event).known == known


def test_a_look_that_is_set_aside_is_no_sight_of_anything():
    seen = (Seen(day(6, 2), plants=20, pinhead=1),)
    read = clock(day(6, 24), given=Given((day(5, 28), day(5, 28))), seen=seen)
    assert read.set_aside
    assert row(read, "first bloom").known == "counted from first square as given"


def test_what_does_not_come_within_the_season_is_told_so():
    read = clock(day(6, 24))
    none = DayOdds(PLANTED, read.odds[Event.CUTOUT].chance * 0, 1.0)
    told = row(replace(read, odds={**read.odds, Event.CUTOUT: none}), "cutout")
    assert (told.likely, told.span) == ("not within this season", "")


def test_days_of_another_year_carry_it():
    read = clock(day(6, 24))
    chance = read.odds[Event.CUTOUT].chance * 0
    chance[1:5] = 0.25
    late = DayOdds(day(12, 29), chance)
    told = row(replace(read, odds={**read.odds, Event.CUTOUT: late}), "cutout")
    assert told.likely == "31 December"
    assert told.span == "30 December to 1 January 2027"
    read = replace(read, on=day(1, 2).replace(year=2027), odds={**read.odds, Event.CUTOUT: late})
    told = row(read, "cutout")
    assert (told.likely, told.span) == ("31 December 2026", "30 December 2026 to 1 January")
    assert row(read, "emergence").span.endswith("May 2026")


def test_the_note_says_what_a_range_is_and_which_code_is_reached():
    assert days_note(clock(day(6, 24))) == (
        "An event falls into its range of days 8 times in 10."
        " BBCH is a code of growth stages; the field is most likely at 51."
    )
    assert days_note(clock(day(5, 10))).endswith("8 times in 10. BBCH is a code of growth stages.")


def footing(read, days=None, km=9.6, passed_over=()):
    return season_footing(read, FieldWeather(days or weather(last=read.on), km, passed_over))


@pytest.mark.parametrize(
    ("km", "said"),
    [
        (9.6, "Weather: Caliche Gin, 6.0 miles (9.6 km) from the field."),
        (40.2, "Weather: Caliche Gin, 25 miles (40 km) from the field."),
        (None, "Weather: Caliche Gin; how far it is from the field is not known."),
    ],
)
def test_the_station_is_told_with_its_distance(km, said):
    assert footing(clock(day(6, 24)), km=km)[0].startswith(said)


def test_stations_passed_over_are_named():
    told = footing(clock(day(6, 24)), passed_over=("Pump 4", "Playa"))[0]
    assert "Passed over, since too much of the season is missing: Pump 4 and Playa." in told


@pytest.mark.parametrize(
    ("mark", "said"),
    [
        (DayMark.NEIGHBOUR, "2 days were filled from another station."),
        (DayMark.BETWEEN, "2 days were filled between the days before and after them."),
        (DayMark.OTHER_YEARS, "2 days were filled with the mean of other years."),
        (DayMark.MEASURED, "No day since planting had to be filled."),
    ],
)
def test_days_that_were_filled_are_told_by_how(mark, said):
    days = marked(weather(last=day(6, 24)), day(6, 1), day(6, 2), mark)
    assert said in footing(clock(day(6, 24)), days)[0]


def test_it_is_said_until_when_the_weather_is_known():
    assert "Weather is known until 24 June." in footing(clock(day(6, 24)))[0]


def test_days_that_lack_before_today_are_said():
    read = clock(day(6, 24))
    late = replace(read, heat=replace(read.heat, known=44))
    assert "Weather is known until 20 June only." in footing(late)[0]


def test_a_forecast_is_told_apart_from_what_was_measured():
    read = clock(day(6, 24))
    ahead = replace(read, heat=replace(read.heat, known=(day(6, 28) - PLANTED).days + 1))
    days = marked(weather(last=day(6, 28)), day(6, 25), day(6, 28), DayMark.FORECAST)
    said = "Weather is measured until 24 June, and forecast until 28 June."
    assert said in footing(ahead, days)[0]


@pytest.mark.parametrize(
    ("first", "said"),
    [
        (day(1, 1).replace(year=1995), "from 30 other years, 1996 to 2025."),
        (day(1, 1).replace(year=2022), "from 4 other years only, so the ranges are rough."),
        (day(1, 1).replace(year=2025), "from 1 other year only, so the ranges are rough."),
        (day(4, 1), "guessed from the last 14 days; the ranges are rough."),
    ],
)
def test_how_many_other_years_there_are_is_said(first, said):
    assert said in footing(clock(day(6, 24), first=first))[0]


def test_heat_so_far_counts_from_the_day_after_planting():
    season = weather(last=day(6, 24)).between(PLANTED + timedelta(days=1), day(6, 24))
    by_hand = sum(
        max((low + high) / 2 - 60, 0)
        for low, high in zip(season.tmin_f, season.tmax_f, strict=True)
    )
    said = f"(DD60) since planting on 8 May: {by_hand:.0f} by 24 June; usual by then: "
    assert said in footing(clock(day(6, 24)))[0]


def test_a_stand_that_was_planted_again_counts_from_replanting():
    by = FieldWeather(weather(last=day(6, 24)), 9.6)
    told = season_footing(clock(day(6, 24)), by, replanted=True)[0]
    assert "since replanting on 8 May: " in told


def test_the_guideline_is_named_with_its_edition():
    by, rule = FieldWeather(weather(last=day(6, 24)), 9.6), load_guideline("oklahoma")
    told = season_footing(clock(day(6, 24)), by, guideline=rule)[0]
    assert told.endswith(f" Guideline: oklahoma, edition {rule.edition}.")


def test_needs_are_told_with_their_sources():
    _, needs, sources = footing(clock(day(6, 24)))
    assert (
        "Emergence takes 57 heat units from planting, 45 to 69 in 8 of 10 fields [1, 2]." in needs
    )
    assert "Stoneville (by Cathey; title not recorded), Beltwide" in sources
    assert "[2] Means of eight years at Stoneville" in sources
    assert "from memory, not checked" in sources


def test_the_picture_holds_heat_up_to_today_and_a_range_after_it():
    read = clock(day(6, 24))
    drawn = season_drawn(read, NEVER)
    assert drawn.heat.shape == (48,)
    assert drawn.heat[0] == 0
    assert np.all(np.diff(drawn.heat) >= 0)
    low, middle, high = drawn.ahead
    assert np.all(low <= middle)
    assert np.all(middle <= high)
    assert drawn.normal is not None


def test_days_that_are_not_known_are_drawn_as_unknown():
    read = clock(day(6, 24))
    late = replace(read, heat=replace(read.heat, known=44))
    assert np.isnan(season_drawn(late, NEVER).heat).tolist() == [False] * 44 + [True] * 4


def test_few_other_years_make_no_usual_run():
    read = clock(day(6, 24), first=day(1, 1).replace(year=2022))
    assert season_drawn(read, NEVER).normal is None


def test_only_what_was_given_for_one_day_is_drawn_as_seen():
    read = clock(day(6, 24), given=Given((day(6, 12), day(6, 12))))
    assert [mark.name for mark in season_drawn(read, NEVER).marks if mark.seen] == ["first square"]


def test_weeks_run_from_first_square_to_the_day_before_bloom():
    read = clock(day(7, 20), given=Given((day(6, 12), day(6, 12)), day(7, 6)))
    assert season_drawn(read, NEVER).weeks == (
        (day(6, 12), day(6, 18)),
        (day(6, 19), day(6, 25)),
        (day(6, 26), day(7, 2)),
        (day(7, 3), day(7, 5)),
    )


def test_walks_and_sprays_of_the_season_are_drawn_and_others_left_out():
    walks = tuple(SeasonWalk(on, Verdict.HOLD) for on in (day(5, 1), day(6, 12), day(6, 30)))
    done = SeasonDone(walks, treated=(day(4, 1), day(6, 13)))
    drawn = season_drawn(clock(day(6, 24)), done)
    assert [walk.on for walk in drawn.walks] == [day(6, 12)]
    assert drawn.treated == (day(6, 13),)


@pytest.mark.parametrize("days", [0, 1, 40, 120, 198, 199])
def test_a_season_can_be_drawn_on_each_of_its_days(days):
    read = clock(PLANTED + timedelta(days=days))
    drawn = season_drawn(read, SeasonDone(next_look=(read.on, read.on)))
    assert drawn.today == read.on <= drawn.last


def test_a_range_of_one_day_is_not_told_beside_that_day():
    read = clock(day(6, 24))
    chance = np.zeros_like(read.odds[Event.EMERGENCE].chance)
    chance[(day(5, 17) - PLANTED).days] = 1.0
    one = DayOdds(PLANTED, chance)
    read = replace(read, odds={**read.odds, Event.EMERGENCE: one})
    told = row(read, "emergence")
    assert (told.likely, told.span) == ("17 May", "")


def test_heat_of_a_thousand_and_more_has_its_thousands_apart():
    assert re.search(r"8 May: [1-3],\d{3} by 31 August", footing(clock(day(8, 31)))[0])


def test_a_distance_of_a_thousand_miles_has_its_thousands_apart():
    told = footing(clock(day(6, 24)), km=13_541.0)[0]
    assert "Caliche Gin, 8,414 miles (13,541 km) from the field." in told
