"""Where a field stands: by first square as it was given, else by weather and what was seen."""

from __future__ import annotations

import json
from datetime import date

import pytest

from quarterwalk.crop import Given, Seen, StageName, clock_for
from quarterwalk.office.crop_clocks import Clocks, CropStanding, FieldSeason, season_of
from quarterwalk.office.kept_weather import weather_of
from quarterwalk.office.models import (
    CallRow,
    CardRow,
    CheckRow,
    FieldRow,
    QuadrantNoteRow,
    WalkRow,
)
from quarterwalk.office.queries.seasons import with_season
from quarterwalk.office.seen_signs import signs_of
from quarterwalk.office.services.cards import cards_for
from quarterwalk.office.services.fields import SeasonDates, set_dates
from quarterwalk.office.services.seen import note_seen
from quarterwalk.weather import weather_for
from tests.office.people import People, made_ready
from tests.office.seasoned import DAY, walk_in
from tests.office.sender import Sender
from tests.office.weathered import PLANTED, planted, station, weathered


def stands(field: FieldRow, on: date = DAY) -> CropStanding:
    return Clocks([field], {on.year}).standing(FieldRow.objects.get(pk=field.pk), on)


def test_first_square_as_it_was_given_holds_whatever_the_weather_says(people: People) -> None:
    weathered(people.near)
    made_ready(people.home)
    told = stands(people.home)
    assert told.worked is None
    assert told.dates is not None
    assert told.dates.first_square == date(2026, 6, 8)
    assert told.stage is not None
    assert told.stage.worked_out is None


def test_without_it_the_stage_is_the_one_of_the_clock_itself(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    middle = (-99.997, 33.0025)
    here = weather_of(people.near.pk).stations  # days after today are a forecast there
    weather = weather_for(here, middle, first=PLANTED, last=DAY)
    clock = clock_for(weather.weather, PLANTED, on=DAY, given=Given())
    told = stands(people.home)
    assert told.worked is not None
    assert told.stage == clock.stage(told.worked.distance_km)
    assert told.dates == clock.dates()
    assert told.worked.station == "Gin Road"
    assert told.worked.distance_km == pytest.approx(weather.distance_km, abs=0.01)


def test_without_weather_or_planting_nothing_is_known(people: People) -> None:
    planted(people.home)
    assert stands(people.home) == CropStanding()
    weathered(people.near)
    assert stands(people.east) == CropStanding()


def test_another_districts_weather_is_not_looked_at(people: People) -> None:
    weathered(people.far)
    planted(people.home)
    assert stands(people.home) == CropStanding()


def test_weather_that_does_not_reach_says_so(people: People) -> None:
    weathered(people.near, station(days=(date(2026, 6, 1), date(2026, 6, 10))))
    planted(people.home)
    told = stands(people.home)
    assert told.stage is None
    assert told.why_not.startswith("Weather of Gin Road must have every day from 2026-05-08")


def test_a_field_goes_by_the_nearest_station(people: People) -> None:
    weathered(people.near, station(), station("OLD", name="Old Well", place=(-99.99, 33.0)))
    planted(people.home)
    told = stands(people.home)
    assert told.worked is not None
    assert told.worked.station == "Old Well"


def test_a_stand_planted_again_counts_from_that_day(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    before = stands(people.home)
    dates = SeasonDates(planted=PLANTED, replanted=date(2026, 5, 28))
    set_dates(field=people.home, year=2026, dates=dates)
    after = stands(people.home)
    assert before.dates is not None
    assert after.dates is not None
    assert after.dates.first_square > before.dates.first_square


def test_what_was_noted_is_joined_by_day_and_a_struck_note_left_out(people: People) -> None:
    for plants, pinhead in ((20, 12), (10, 1)):
        note_seen(field=people.home, seen=Seen(DAY, plants=plants, pinhead=pinhead), by=people.bob)
    struck = note_seen(field=people.home, seen=Seen(DAY, nodes=9), by=people.bob)
    struck.struck_at = struck.at
    struck.save()
    assert signs_of([people.home.pk], {2026}) == {
        people.home.pk: (Seen(DAY, plants=30, pinhead=13),)
    }


def test_the_plants_of_a_walk_are_something_seen(people: People) -> None:
    walk_id = walk_in(people.home, people.bob, nymphs=1, lost=0)
    for place, branches in enumerate(("3 3 4", "2 3")):
        QuadrantNoteRow.objects.create(
            walk_id=walk_id, position=place, quadrant="NW", branches=branches
        )
    told = Seen(DAY, plants=40, pinhead=40, squaring_branches=3.0, walked=True)
    assert signs_of([people.home.pk], {2026}) == {people.home.pk: (told,)}
    WalkRow.objects.update(state="void")
    assert signs_of([people.home.pk], {2026}) == {}


def test_only_what_was_seen_up_to_the_day_counts(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    before = stands(people.home, date(2026, 6, 12))
    walk_in(people.home, people.bob, nymphs=1, lost=0)
    assert stands(people.home, date(2026, 6, 12)) == before
    assert stands(people.home) != before


def test_a_call_says_how_first_square_was_worked_out(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    told = json.loads(CallRow.objects.get().content)
    assert "first-square-worked-out" in {reason["code"] for reason in told["call"]["reasons"]}
    assert set(told["crop"]["chances"]) == {"before", "weeks", "blooming"}
    assert told["crop"]["first_square"]


def test_a_walk_that_comes_late_makes_later_calls_anew(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    later = walk_in(people.home, people.bob, nymphs=9, lost=1)
    assert CallRow.objects.filter(walk_id=later).count() == 1
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=date(2026, 6, 12))
    assert CallRow.objects.filter(walk_id=later).count() == 2


def test_given_dates_are_not_made_anew_by_a_walk_that_comes_late(people: People) -> None:
    made_ready(people.home)
    walk_in(people.home, people.bob, nymphs=9, lost=1)
    walk_in(people.home, people.bob, nymphs=1, lost=0, on=date(2026, 6, 12))
    assert CallRow.objects.count() == 2


def test_a_card_takes_the_days_along_that_the_call_goes_by(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    field = with_season(FieldRow.objects.filter(pk=people.home.pk))[0]
    given = cards_for([field], DAY, {})
    card = json.loads(bytes(CardRow.objects.get(sha256=given[field.pk].sha256).raw))
    told = stands(people.home)
    assert told.dates is not None
    assert card["weeks"][0]["from"] == told.dates.first_square.isoformat()


def test_a_phone_reads_the_stage_with_its_doubt(people: People) -> None:
    weathered(people.near)
    planted(people.home)
    bobs = Sender(people.bob, people.near)
    by_name = {field["name"]: field for field in bobs.get("day").json()["fields"]}
    assert by_name["Home 80"]["stage"] == "week 1, about 7 in 10"
    assert by_name["East 80"]["stage"] == "first square not given"


def test_the_season_is_told_also_where_first_square_was_given(people: People) -> None:
    weathered(people.near)
    dates = SeasonDates(planted=PLANTED, first_square=date(2026, 6, 12))
    set_dates(field=people.home, year=2026, dates=dates)
    told = season_of(people.home, DAY)
    assert isinstance(told, FieldSeason)
    assert told.clock.stage().name is StageName.SQUARING
    assert told.clock.given.first_square == (date(2026, 6, 12), date(2026, 6, 12))


@pytest.mark.parametrize(
    ("weather", "said"),
    [(True, "The day of planting is not given."), (False, "No weather has been handed in")],
)
def test_it_is_said_why_a_season_cannot_be_told(people: People, weather: bool, said: str) -> None:
    if weather:
        weathered(people.near)
    else:
        planted(people.home)
    told = season_of(people.home, DAY)
    assert isinstance(told, str)
    assert told.startswith(said)


def test_plants_that_were_passed_over_tell_nothing_of_squares(people: People) -> None:
    walk_id = walk_in(people.home, people.bob, nymphs=1, lost=0)
    passed = CheckRow.objects.filter(walk=walk_id, healthy__isnull=False)[:15]
    CheckRow.objects.filter(pk__in=[row.pk for row in passed]).update(skipped=True)
    told = Seen(DAY, plants=25, pinhead=25, walked=True)
    assert signs_of([people.home.pk], {2026}) == {people.home.pk: (told,)}


def test_on_the_day_of_planting_again_the_new_stand_counts(people: People) -> None:
    weathered(people.near)
    again = date(2026, 6, 9)
    note_seen(field=people.home, seen=Seen(date(2026, 6, 8), nodes=8), by=people.bob)
    set_dates(field=people.home, year=2026, dates=SeasonDates(planted=PLANTED, replanted=again))
    fields = with_season(FieldRow.objects.filter(pk=people.home.pk))
    before, on = (season_of(fields[0], day) for day in (date(2026, 6, 8), again))
    assert isinstance(on, FieldSeason)
    assert isinstance(before, FieldSeason)
    assert (before.clock.planted, on.clock.planted) == (PLANTED, again)
    assert (len(before.clock.seen), on.clock.seen) == (1, ())


def test_a_bloom_given_for_the_day_itself_is_known(people: People) -> None:
    weathered(people.near)
    dates = SeasonDates(planted=PLANTED, bloom=date(2026, 7, 6))
    set_dates(field=people.home, year=2026, dates=dates)
    eve, on = (stands(people.home, day).stage for day in (date(2026, 7, 5), date(2026, 7, 6)))
    assert eve is not None
    assert on is not None
    assert (eve.name, on.name) == (StageName.SQUARING, StageName.BLOOMING)


def test_fields_of_one_station_and_planting_share_their_clock(people: People) -> None:
    weathered(people.near)
    for field in (people.home, people.east):
        planted(field)
    fields = with_season(FieldRow.objects.filter(district=people.near))
    home, east = (season_of(row, DAY) for row in fields)
    assert isinstance(home, FieldSeason)
    assert isinstance(east, FieldSeason)
    assert home.clock is east.clock
    assert home.weather.distance_km != east.weather.distance_km
    weathered(people.near, station(name="Old Gin"))
    after = season_of(fields[0], DAY)
    assert isinstance(after, FieldSeason)
    assert after.clock.heat.station == "Old Gin"
