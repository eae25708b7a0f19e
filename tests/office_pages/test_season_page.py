from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from xml.etree import ElementTree

import pytest
from pytest_django import Settings

from quarterwalk.call import Verdict
from quarterwalk.crop import CropDates, Seen, WeekOdds, WorkedOut, stage_on
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.season import stage_words
from quarterwalk.office.queries.season import season_seen
from quarterwalk.office.services.fields import SeasonDates, set_dates
from quarterwalk.office.services.seen import note_seen
from tests.office.people import People
from tests.office.weathered import PLANTED, planted, station, weathered
from tests.office_pages.visits import Tags, visitor, words
from tests.office_pages.walked import walk_in


@pytest.fixture
def home(people: People) -> FieldRow:
    """Give a field of which only the planting is known, and weather."""
    weathered(people.near)
    planted(people.home)
    return people.home


def page(people: People, path: str, who: str = "alice") -> str:
    answer = visitor(getattr(people, who)).get(path)
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_season_is_told_in_words_and_in_a_picture(people: People, home: FieldRow) -> None:
    walk_in(home, people.bob, date(2026, 6, 24), nymphs=1, lost=0)
    html = page(people, f"/fields/{home.public_id}/season")
    told = words(html)
    assert "Week 3 of squaring, most likely" in told
    assert "Weather: Gin Road, 6.0 miles (9.6 km) from the field." in told
    pictures = [html[at : html.index("</svg>", at) + 6] for at in _places(html, "<svg")]
    named = [ElementTree.fromstring(each) for each in pictures if "season-" in each]
    assert [each.get("id", each.get("aria-labelledby")) for each in named]
    assert not any("style=" in each or 'fill="#' in each for each in pictures)


def _places(text: str, part: str) -> list[int]:
    return [at for at in range(len(text)) if text.startswith(part, at)]


def test_it_prints_on_a_sheet(people: People, home: FieldRow) -> None:
    path = f"/fields/{home.public_id}/season"
    assert f'href="{path}.pdf"' in page(people, path, "bob")
    answer = visitor(people.bob).get(f"{path}.pdf")
    assert answer["Content-Type"] == "application/pdf"
    assert 'filename="home-80-season-2026-07-01.pdf"' in answer["Content-Disposition"]
    assert answer.content.startswith(b"%PDF")


def test_without_the_maker_of_pdf_there_is_no_sheet(
    people: People, home: FieldRow, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("quarterwalk.office.pages.season_page.find_spec", lambda name: None)
    path = f"/fields/{home.public_id}/season"
    assert "season.pdf" not in page(people, path)
    assert visitor(people.bob).get(f"{path}.pdf").status_code == 404


def test_a_season_that_cannot_be_told_says_why(people: People) -> None:
    planted(people.home)
    path = f"/fields/{people.home.public_id}/season"
    assert "No weather has been handed in for this district." in page(people, path)
    assert visitor(people.alice).get(f"{path}.pdf").status_code == 404


def test_odds_are_not_for_growers(people: People, home: FieldRow) -> None:
    walk = walk_in(home, people.bob, date(2026, 7, 1), nymphs=9, lost=2)
    assert visitor(people.gil).get(f"/fields/{home.public_id}/season").status_code == 404
    for path in ("/", f"/fields/{home.public_id}", f"/walks/{walk}"):
        told = words(page(people, path, "gil"))
        assert not re.search("about [0-9] in 10|9 in 10", told), path
    assert "week 3, most likely" in words(page(people, f"/fields/{home.public_id}", "gil"))
    assert "it is most likely Saturday 13 June" in words(page(people, f"/walks/{walk}", "gil"))


def test_a_field_says_where_it_stands_and_how_that_is_known(people: People, home: FieldRow) -> None:
    told = words(page(people, f"/fields/{home.public_id}", "bob"))
    assert "Week 3, about 6 in 10 Worked out from the weather of Gin Road, 6.0 miles off" in told
    assert "First square not given; worked out as about 13 June, 9 in 10 from 9 June" in told
    assert f'href="/fields/{home.public_id}/season"' in page(people, f"/fields/{home.public_id}")


def test_a_field_with_given_dates_says_so(people: People) -> None:
    dates = SeasonDates(planted=PLANTED, first_square=date(2026, 6, 20))
    set_dates(field=people.home, year=2026, dates=dates)
    told = words(page(people, f"/fields/{people.home.public_id}"))
    assert "Week 2, day 11 By the dates given" in told


@pytest.mark.parametrize(
    ("weeks", "said", "without"),
    [
        ((0.0, 0.1, 0.6, 0.3), "week 2, about 6 in 10", "week 2, most likely"),
        (
            (0.0, 0.1, 0.3, 0.26, 0.34),
            "squaring, about 7 in 10; week 2, about 3 in 10",
            "squaring, most likely week 2",
        ),
        ((0.0, 0.0, 0.4, 0.0, 0.6), "blooming, about 6 in 10", "blooming, most likely"),
        ((0.7, 0.3, 0.0, 0.0), "before squaring, about 7 in 10", "before squaring, most likely"),
        ((0.0, 0.35, 0.35, 0.3), "squaring; week 1, about 4 in 10", "squaring, most likely week 1"),
        ((0.0, 0.0, 1.0), "week 2", "week 2"),
    ],
)
def test_all_weeks_together_are_set_against_before_and_after(
    weeks: tuple[float, ...], said: str, without: str
) -> None:
    before, *told = weeks
    blooming = told.pop() if len(told) == 4 else 0.0
    day = date(2026, 6, 10)
    stage = stage_on(day, CropDates(day))
    worked = WorkedOut(day, day, day, WeekOdds(before, tuple(told), blooming))
    stage = replace(stage, worked_out=worked)
    assert stage_words(stage) == said
    assert stage_words(stage, odds=False) == without


def test_a_stand_that_was_planted_again_is_told_so(people: People, home: FieldRow) -> None:
    dates = SeasonDates(planted=PLANTED, replanted=PLANTED + timedelta(days=9))
    set_dates(field=home, year=2026, dates=dates)
    told = words(page(people, f"/fields/{home.public_id}/season"))
    assert "since replanting on " in told
    assert "since planting on" not in told


def test_weather_that_does_not_reach_is_said_beside_the_dates(people: People) -> None:
    weathered(people.near, station(days=(date(2026, 6, 1), date(2026, 6, 10))))
    planted(people.home)
    walk = walk_in(people.home, people.bob, date(2026, 7, 1), nymphs=9, lost=2)
    said = "It can't be worked out either. Weather of Gin Road must have every day"
    assert said in words(page(people, f"/fields/{people.home.public_id}"))
    assert said in words(page(people, f"/walks/{walk}"))


def test_a_field_without_planting_offers_no_season(people: People) -> None:
    html = page(people, f"/fields/{people.home.public_id}")
    assert "/season" not in html
    assert "Where it stands" not in html


def test_days_of_the_table_are_heard_with_their_heads(people: People, home: FieldRow) -> None:
    tags = Tags(page(people, f"/fields/{home.public_id}/season"))
    heads = [tag for tag in tags.named("th") if tag.get("scope") == "col"]
    rows = [tag for tag in tags.named("th") if tag.get("scope") == "row"]
    assert len(heads) == 6
    assert len(rows) >= 4


def test_what_was_seen_stands_on_the_fields_page(people: People, home: FieldRow) -> None:
    seen = Seen(date(2026, 6, 10), nodes=6.5, plants=20, pinhead=4)
    note_seen(field=home, seen=seen, by=people.bob)
    told = words(page(people, f"/fields/{home.public_id}"))
    assert "10 June: 6.5 nodes, squares on 4 of 20 plants" in told


def test_what_the_weather_hardly_allows_asks_for_the_day_of_planting(
    people: People, home: FieldRow
) -> None:
    path = f"/fields/{home.public_id}"
    said = "check the day of planting"
    assert said not in page(people, "/") + page(people, path)
    # flowers three weeks after planting
    note_seen(field=home, seen=Seen(PLANTED + timedelta(days=21), bloom=True), by=people.bob)
    assert f"<b>{said}</b>" in page(people, "/", "bob")
    assert "season over" not in page(people, "/")  # a slip takes no field off the list
    assert said in page(people, path)
    assert said not in page(people, "/", "gil") + page(people, path, "gil")


def test_a_season_that_is_over_is_told_in_the_words_of_the_field(
    people: People, settings: Settings
) -> None:
    weathered(people.near)
    planted(people.home)
    settings.SHIFT_MS += timedelta(days=151) // timedelta(milliseconds=1)
    path = f"/fields/{people.home.public_id}"
    assert "Planted 8 May: that season is over." in words(page(people, path))
    season = words(page(people, f"{path}/season"))
    assert "This season is over. Planted 8 May: that season is over." in season
    assert "worked out yet" not in season


def test_a_stand_that_is_still_to_be_planted_is_told_so(people: People) -> None:
    weathered(people.near)
    path = f"/fields/{people.home.public_id}"
    planted(people.home, date(2026, 7, 9))
    assert "Planted 9 July: the day that is asked for lies before." in words(page(people, path))


def test_before_weather_a_planted_field_says_what_would_help(people: People) -> None:
    path, said = f"/fields/{people.home.public_id}", "Give it, or hand in weather."
    assert said not in words(page(people, path))
    planted(people.home)
    assert f"so no call can be made. {said}" in words(page(people, path))
    assert said not in words(page(people, path, "bob"))


def test_a_walk_without_a_call_is_drawn_as_one_that_calls_for_nothing(
    people: People, home: FieldRow
) -> None:
    dates = SeasonDates(planted=PLANTED, first_square=date(2026, 6, 12))
    set_dates(field=home, year=2026, dates=dates)
    walk_in(home, people.bob, date(2026, 6, 2), nymphs=1, lost=0)  # before it squares
    row = FieldRow.objects.get(pk=home.pk)
    told = season_seen(row, people.part(people.alice), date(2026, 7, 1)).report
    assert told is not None
    assert [each.verdict for each in told.drawn.walks] == [Verdict.NONE]
