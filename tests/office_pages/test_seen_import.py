"""A table of what was seen, handed in: every row once, or nothing of it."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from quarterwalk.office.models import CallRow, Person, SeenRow
from quarterwalk.office.seen_signs import signs_of
from quarterwalk.office.services import calls
from quarterwalk.office.services.fields import SeasonDates, set_dates
from quarterwalk.office.services.seen import strike_seen
from tests.office.people import People
from tests.office.weathered import planted, weathered
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import walk_in

HEAD = "field,date,true_leaves,plants,pinhead,squaring_branches,bloom,note\n"
QUARTERS = HEAD + "".join(
    f"Home 80,2026-06-22,,5,,{branches},0,{quarter}\n"
    for quarter, branches in (("NW", 3.2), ("NE", 2.8), ("SW", 3.4), ("SE", 2.6))
)


def hand_in(person: Person, content: str) -> HttpResponse:
    file = SimpleUploadedFile("seen.csv", content.encode())
    return visitor(person).post("/seen/import", {"file": file}, follow=True)


def test_every_row_is_taken_as_it_stands_and_told_in_one_sentence(people: People) -> None:
    table = QUARTERS + "East 80,2026-06-12,,40,8,,,\n"
    page = words(hand_in(people.alice, table).content.decode())
    assert "5 looks taken. Where the stage is worked out, calls are made anew." in page
    row = SeenRow.objects.get(note="NE")
    assert (row.field, row.on, row.by) == (people.home, date(2026, 6, 22), people.alice)
    assert (row.plants, row.pinhead, row.squaring_branches, row.bloom) == (5, None, 2.8, False)
    [seen] = signs_of([people.home.pk], [2026])[people.home.pk]
    # rows of one day are joined as `docs/seen.md` joins them: (3.2 + 2.8 + 3.4 + 2.6) / 4
    assert (seen.squaring_branches, seen.plants) == (pytest.approx(3.0), None)


def test_the_same_row_again_adds_nothing(people: People) -> None:
    hand_in(people.alice, QUARTERS)
    more = QUARTERS + "Home 80,2026-06-25,,20,12,,,\n"
    page = words(hand_in(people.alice, more).content.decode())
    assert "1 look taken, 4 were here already." in page
    assert SeenRow.objects.count() == 5
    assert "0 looks taken, 5 were here already." in words(
        hand_in(people.alice, more).content.decode()
    )


def test_two_rows_of_a_table_that_say_the_same_are_two(people: People) -> None:
    twice = HEAD + 2 * "Home 80,2026-06-22,,5,4,,,\n"
    for _ in range(2):
        hand_in(people.alice, twice)
    assert SeenRow.objects.count() == 2


def test_a_row_that_was_struck_here_does_not_come_back(people: People) -> None:
    hand_in(people.alice, QUARTERS)
    strike_seen(seen=SeenRow.objects.get(note="NE"), by=people.alice)
    page = words(hand_in(people.alice, QUARTERS).content.decode())
    assert "0 looks taken, 4 were here already (1 of them struck, and left so)." in page
    assert SeenRow.objects.filter(struck_at=None).count() == 3


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Nowhere 9,2026-06-22,,20,4,,,", "2 field Must be the name of a field of this office,"),
        ("Home 80,2026-07-02,,20,4,,,", "2 date Must be a day on which the crop could be seen,"),
        ("Home 80,2026-05-01,,20,4,,,", "The crop was planted on 2026-05-08."),
        ("Home 80,2025-06-22,,20,4,,,", "Nothing is known of a season of 2025 in this field."),
        (f"Home 80,2026-06-22,,20,4,,,{'x' * 501}", "2 note Must be a text of at most 500"),
        ("Home 80,2026-06-22,,20,24,,,", "2 pinhead Must be at most the 20 plants"),
        ("Home 80,2026-06-22,,20,,,,", "Nothing was seen in this row."),
    ],
)
def test_one_row_that_cannot_be_refuses_the_whole_table(
    people: People, row: str, said: str
) -> None:
    planted(people.home)
    answer = hand_in(people.alice, f"{HEAD}{row}\nHome 80,2026-06-23,,20,4,,,\n")
    assert answer.status_code == 422
    assert said in words(answer.content.decode())
    assert not SeenRow.objects.exists()


def test_the_calls_that_it_changes_are_made_anew_once(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    weathered(people.near)
    planted(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 24), nymphs=9, lost=1)
    asked: list[int] = []
    keep = calls.keep
    monkeypatch.setattr(calls, "keep", lambda ids: (asked.append(len(ids)), keep(ids))[1])
    hand_in(people.alice, QUARTERS)
    assert asked == [1]
    assert CallRow.objects.count() == 2


def test_it_is_said_where_flowers_stand_for_first_bloom(people: People) -> None:
    planted(people.east)  # its first square is not given: flowers weigh with the weather
    given = SeasonDates(planted=date(2026, 5, 1), first_square=date(2026, 6, 1))
    set_dates(field=people.home, year=2026, dates=given)
    rows = [f"{field},2026-06-28,,,,,1,\n" for field in ("Home 80", "East 80")]
    told = "White flowers stand for the first bloom of 1 field now; calls are made anew there."
    assert told in words(hand_in(people.alice, HEAD + "".join(rows)).content.decode())
    soon = HEAD + "Home 80,2026-06-01,,,,,1,\nHome 80,2026-06-29,,,,,0,\n"
    page = words(hand_in(people.alice, soon).content.decode())
    assert "2 looks taken." in page
    assert "White flowers" not in page


def test_leads_only(people: People) -> None:
    assert hand_in(people.bob, QUARTERS).status_code == 404
    assert "/seen/import" not in visitor(people.bob).get("/import").content.decode()
    assert "/seen/import" in visitor(people.alice).get("/import").content.decode()


def test_its_notes_stand_with_the_looks(people: People) -> None:
    hand_in(people.alice, QUARTERS)
    page = words(visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode())
    assert "5 plants looked at, 2.6 squaring branches, no white flower yet; SE" in page
