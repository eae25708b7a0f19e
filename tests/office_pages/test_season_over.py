"""Past the season: no field is late or to treat, and nothing counts weeks on and on."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from django.utils import timezone
from pytest_django import Settings

from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.due import due_of
from quarterwalk.office.pages.season import sign_of, stage_words
from quarterwalk.office.queries.standing import standings
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from tests.office.people import People
from tests.office.weathered import planted
from tests.office_pages.visits import visitor, words

FIRST_SQUARE = date(2026, 6, 20)


@pytest.fixture
def november(people: People, walk_id: str, settings: Settings) -> str:
    """Give the lead's list at the end of November, of a field whose call of July says treat."""
    then = datetime(2026, 11, 30, 18, tzinfo=UTC)
    settings.SHIFT_MS = (then - timezone.now()) // timedelta(milliseconds=1)
    return words(visitor(people.alice).get("/").content.decode())


def test_the_list_says_that_the_season_is_over(people: People, november: str) -> None:
    assert "Monday 30 November 2 fields Field" in november
    assert "No look due 1 Home 80 Gil Orme, past squaring, no bloom given" in november
    assert "season over walked 1 July" in november
    for said in ("late", "week 24", "Treat 1", " treat "):
        assert said not in november


def test_so_does_the_fields_page(people: People, november: str) -> None:
    page = words(visitor(people.alice).get(f"/fields/{people.home.public_id}").content.decode())
    assert "No look due: season over. Walked 1 July." in page
    assert "Treated? Give the day" not in page
    assert "look for the first flower" not in page
    assert "week 24" not in page


@pytest.mark.parametrize(("days", "over"), [(45, False), (46, True)])
def test_it_ends_with_the_days_on_which_a_call_can_be_made(
    people: People, walk_id: str, *, days: int, over: bool
) -> None:
    on = FIRST_SQUARE + timedelta(days=days)
    [told] = standings(FieldRow.objects.filter(pk=people.home.pk), on)
    assert (due_of(told, on).why == "season over") is over
    assert stage_words(told.crop.stage).startswith("past squaring" if over else "week 7, day 45")


def test_a_crop_that_was_planted_too_long_ago_is_over_too(people: People) -> None:
    set_rule(field=people.home, guideline="southern-high-plains", line="")
    planted(people.home)  # on 8 May; 200 days later nothing is worked out any more
    for on, why in ((date(2026, 11, 23), "first look"), (date(2026, 11, 24), "season over")):
        [told] = standings(FieldRow.objects.filter(pk=people.home.pk), on)
        assert due_of(told, on).why == why


@pytest.mark.parametrize(
    ("days", "said"),
    [(24, ""), (25, "look for the first flower"), (44, "look for the first flower")],
)
def test_from_day_25_on_a_field_may_bloom(
    people: People, walk_id: str, days: int, said: str
) -> None:
    [told] = standings(
        FieldRow.objects.filter(pk=people.home.pk), FIRST_SQUARE + timedelta(days=days)
    )
    assert sign_of(told.crop.stage) == said


def test_the_sign_stands_in_list_and_on_page_for_those_who_walk(people: People) -> None:
    set_rule(field=people.home, guideline="southern-high-plains", line="")
    dates = SeasonDates(first_square=date(2026, 6, 6))
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    path = f"/fields/{people.home.public_id}"
    for url in ("/", path):
        told = words(visitor(people.bob).get(url).content.decode())
        assert "look for the first flower" in told
        assert "look for the first flower" not in words(
            visitor(people.gil).get(url).content.decode()
        )
    dates = SeasonDates(first_square=date(2026, 6, 6), bloom=date(2026, 7, 5))
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    assert "look for the first flower" not in visitor(people.bob).get(path).content.decode()
