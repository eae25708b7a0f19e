from __future__ import annotations

from datetime import date

import pytest
from django.http import HttpResponse
from django.utils import timezone

from quarterwalk.crop import Seen
from quarterwalk.office.models import Person, SeenRow
from quarterwalk.office.services.seen import note_seen
from tests.office.people import People
from tests.office.weathered import planted, weathered
from tests.office_pages.visits import Tags, visitor, words


def note(people: People, who: Person, **told: str) -> HttpResponse:
    told = {"on": "2026-06-30", **told}
    return visitor(who).post(f"/fields/{people.home.public_id}/seen", told, follow=True)


def test_a_scout_notes_what_they_saw(people: People) -> None:
    answer = note(people, people.bob, nodes="8.5", plants="20", pinhead="12", bloom="no")
    assert answer.status_code == 200
    assert "What was seen is saved." in words(answer.content.decode())
    row = SeenRow.objects.get()
    assert (row.on, row.nodes, row.plants, row.pinhead) == (date(2026, 6, 30), 8.5, 20, 12)
    assert (row.bloom, row.true_leaves, row.by) == (False, None, people.bob)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({}, "Fill in one of the counts at least."),
        ({"plants": "20", "pinhead": "21"}, "At most the 20 plants that were looked at."),
        ({"pinhead": "2"}, "Say how many plants were looked at."),
        ({"plants": "20"}, "Fill in one of the counts at least."),
        ({"nodes": "31"}, "Write a number from 0 to 30, such as 4 or 4.5."),
        ({"nodes": "nan"}, "Write a number from 0 to 30, such as 4 or 4.5."),
        ({"nodes": "5", "on": "2026-07-02"}, "This day is still to come."),
        ({"nodes": "5", "on": "2025-06-30"}, "Nothing is known of a season of 2025 in this field."),
        ({"nodes": "5", "on": "0001-01-01"}, "The year must be from 1700 to 2199."),
        ({"bloom": "no", "nawf": "7"}, "Without a white flower there are no nodes above one."),
    ],
)
def test_what_cannot_be_is_refused_and_kept_on_the_page(
    people: People, told: dict[str, str], said: str
) -> None:
    answer = note(people, people.bob, **told)
    assert answer.status_code == 422
    assert said in words(answer.content.decode())
    assert not SeenRow.objects.exists()


def test_branches_of_some_plants_are_taken_as_a_table_takes_them(people: People) -> None:
    # a row of `docs/seen.md`: 5 plants looked at, 3.2 squaring branches a plant, no flower
    answer = note(people, people.bob, plants="5", squaring_branches="3.2", bloom="no")
    assert answer.status_code == 200
    row = SeenRow.objects.get()
    assert (row.plants, row.pinhead, row.squaring_branches) == (5, None, 3.2)
    page = visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode()
    assert "5 plants looked at, 3.2 squaring branches, no white flower yet" in words(page)


def test_the_scar_of_a_lost_square_counts_too(people: People) -> None:
    page = visitor(people.bob).get(f"/fields/{people.home.public_id}/seen").content.decode()
    assert "with a square, or the scar of one that was lost" in words(page)


def test_it_is_said_what_a_note_is_good_for(people: People) -> None:
    assert "Give the day of planting too" in words(
        note(people, people.bob, nodes="8").content.decode()
    )
    weathered(people.near)
    planted(people.home)
    assert "calls are made anew" in words(note(people, people.bob, nodes="8").content.decode())


def test_notes_of_before_are_listed_and_struck_by_their_own_scout_or_a_lead(
    people: People,
) -> None:
    seen = [
        note_seen(field=people.home, seen=Seen(date(2026, 6, 20), nodes=nodes), by=by)
        for nodes, by in ((6, people.alice), (7, people.bob))
    ]
    path = f"/fields/{people.home.public_id}/seen"
    page = visitor(people.bob).get(path).content.decode()
    assert "7 nodes" in page
    assert f"/seen/{seen[1].pk}/strike" in page
    assert f"/seen/{seen[0].pk}/strike" not in page
    answer = visitor(people.bob).post(f"/seen/{seen[1].pk}/strike", follow=True)
    assert "The note is struck." in words(answer.content.decode())
    assert "7 nodes" not in answer.content.decode()
    assert visitor(people.bob).post(f"/seen/{seen[0].pk}/strike").status_code == 404


def test_all_notes_of_the_season_are_listed(people: People) -> None:
    now, on = timezone.now(), date(2026, 6, 20)
    SeenRow.objects.bulk_create(
        SeenRow(field=people.home, on=on, nodes=7, by=people.bob, at=now) for _ in range(75)
    )
    path = f"/fields/{people.home.public_id}/seen"
    assert visitor(people.bob).get(path).content.decode().count("Strike the note of 20 June") == 75


def test_a_lead_strikes_a_scouts_note(people: People) -> None:
    seen = note_seen(field=people.home, seen=Seen(date(2026, 6, 20), nodes=7), by=people.bob)
    path = f"/fields/{people.home.public_id}/seen"
    page = Tags(visitor(people.alice).get(path).content.decode())
    assert f"/seen/{seen.pk}/strike" in [form.get("action") for form in page.named("form")]
    assert "Strike the note of 20 June" in [b.get("aria-label") for b in page.named("button")]
    visitor(people.alice).post(f"/seen/{seen.pk}/strike")
    assert SeenRow.objects.get().struck_by == people.alice


def test_a_grower_notes_nothing(people: People) -> None:
    path = f"/fields/{people.home.public_id}"
    assert visitor(people.gil).get(f"{path}/seen").status_code == 404
    assert f"{path}/seen" not in visitor(people.gil).get(path).content.decode()
