"""White flowers that were noted where first square is given: what the pages say then."""

from __future__ import annotations

from datetime import date

import pytest
from django.http import HttpResponse

from quarterwalk.office.models import Person
from quarterwalk.office.services.fields import SeasonDates, set_dates
from tests.office.people import People
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import judge, walk_in

WALKED = date(2026, 6, 30)


def note(people: People, on: str = "2026-06-29", who: Person | None = None, **told: str) -> str:
    told = {"on": on, **(told or {"bloom": "yes"})}
    path = f"/fields/{people.home.public_id}/seen"
    answer: HttpResponse = visitor(who or people.bob).post(path, told, follow=True)
    assert answer.status_code == 200
    return words(answer.content.decode())


def said(people: People, path: str) -> str:
    return words(visitor(people.alice).get(path).content.decode())


@pytest.fixture
def walk(people: People) -> str:
    judge(people.home)
    dates = SeasonDates(planted=date(2026, 5, 14), first_square=date(2026, 6, 10))
    set_dates(field=people.home, year=2026, dates=dates)
    return walk_in(people.home, people.bob, WALKED, nymphs=25, lost=3)


def test_list_field_and_walk_say_that_the_field_blooms(people: People, walk: str) -> None:
    field = f"/fields/{people.home.public_id}"
    assert "No bloom seen yet" in said(people, field)
    assert "Leave host weeds standing" in said(people, f"/walks/{walk}")
    note(people)
    assert "season over" in said(people, "/")
    page = said(people, field)
    assert "No bloom seen yet" not in page
    assert "Blooming By the dates given, and the white flowers that were seen" in page
    assert "White flowers seen 29 June; that day stands for first bloom" in page
    assert "First bloom" not in page
    told = said(people, f"/walks/{walk}")
    assert "White flowers were seen on Monday 29 June" in told
    assert "so host weeds around it may be cleared" in told
    assert "Leave host weeds standing" not in told


def test_striking_the_note_takes_it_back(people: People, walk: str) -> None:
    before = said(people, "/")
    note(people)
    pk = people.home.seen.get().pk
    visitor(people.bob).post(f"/seen/{pk}/strike")
    assert said(people, "/") == before
    assert "Leave host weeds standing" in said(people, f"/walks/{walk}")


def test_it_is_said_what_such_a_note_changes(people: People, walk: str) -> None:
    holds = "First square of this field is given, and it holds"
    stay = f"{holds}: its calls stay as they are."
    assert stay in note(people, nodes="9")
    assert f"{holds}: its calls stay as they are." in note(people, bloom="no")
    assert "can't be true beside it, and do not count." in note(people, on="2026-06-10")
    told = note(people)
    assert stay not in told
    assert "the first day on which white flowers were noted stands for it" in told
    given = SeasonDates(first_square=date(2026, 6, 10), bloom=WALKED)
    set_dates(field=people.home, year=2026, dates=given)
    assert stay in note(people)
