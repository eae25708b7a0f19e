from __future__ import annotations

from collections.abc import Sequence

import pytest

from quarterwalk.journal import (
    Abundance,
    Body,
    DeviceCount,
    Entry,
    LostSquares,
    Note,
    PlantChecked,
    QuadrantNoted,
    Sight,
    Sighted,
    Source,
    WalkClosed,
    WalkOpened,
    walk_id,
    write_entry,
)
from quarterwalk.office.models import Device
from quarterwalk.office.services.journal import take
from quarterwalk.walk import QUADRANTS, InsectCount, Method, Quadrant, Sites
from tests.office.people import People, phone
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import judge


def send(device: Device, people: People, bodies: Sequence[Body]) -> str:
    """Send a walk from Bob's phone, its first entry the opening; gives the walk's id."""
    walk = walk_id(device.device_id, 1)
    entries = [
        Entry(
            device=device.device_id,
            seq=seq,
            at_text=f"2026-07-01T09:{seq % 60:02}:00.000-05:00",
            tick=seq * 1000,
            by=people.bob.public_id,
            walk=walk,
            body=body,
        )
        for seq, body in enumerate(bodies, 1)
    ]
    answers = take(device, b"\n".join(map(write_entry, entries)))
    assert {answer.answer for answer in answers} == {"held"}
    return walk


@pytest.fixture
def on_the_way(people: People) -> str:
    """Give a closed walk of 40 plants of which 12 entries have not come in."""
    judge(people.home)
    device, _ = phone(people.bob, people.near)
    Device.objects.filter(pk=device.pk).update(label="Bob's phone")
    opened = WalkOpened(
        field=people.home.public_id,
        method=Method.TERMINAL,
        sites=Sites.ALL,
        source=Source.PHONE,
    )
    plants = [
        PlantChecked(quadrant=quadrant, stop=1, plant=plant, insects=InsectCount(0, 0))
        for quadrant in QUADRANTS
        for plant in range(1, 11)
    ]
    notes = [
        QuadrantNoted(
            Quadrant.NE,
            lost=LostSquares.SMALL,
            water=False,
            other_pests=Abundance.SOME,
            branches=(5, 6, 6),
            note="Sand blown in.",
        ),
        Sighted(Sight.HOST_WEEDS, quadrant=Quadrant.SW, stop=4, note="By the ditch."),
        Note("The gate sticks."),
    ]
    told = len(plants) + len(notes) + 2 + 12
    closed = WalkClosed(entries=(DeviceCount(device.device_id, told),))
    return send(device, people, [opened, *plants, *notes, closed])


def test_a_walk_whose_entries_are_not_all_here_says_how_many_it_waits_for(
    people: People, on_the_way: str
) -> None:
    page = visitor(people.gil).get(f"/walks/{on_the_way}").content.decode()
    assert "Waiting for 12 more entries from Bob's phone." in words(page)
    assert "for now" in page


def test_the_list_marks_such_a_call_as_one_for_now(people: People, on_the_way: str) -> None:
    told = words(visitor(people.alice).get("/").content.decode())
    assert "hold for now" in told


def test_what_was_noted_of_a_quarter_is_told_in_words(people: People, on_the_way: str) -> None:
    told = words(visitor(people.bob).get(f"/walks/{on_the_way}").content.decode())
    assert (
        "NE Small squares lost; some other pests; no standing water; fruiting branches on"
        " single plants: 5, 6 and 6. Sand blown in." in told
    )


def test_what_was_seen_stands_with_when_who_and_where(people: People, on_the_way: str) -> None:
    told = words(visitor(people.bob).get(f"/walks/{on_the_way}").content.decode())
    assert "1 July, 09:43, Bob Tarn, SW, stop 4 Host weeds: By the ditch." in told
    assert "1 July, 09:44, Bob Tarn The gate sticks." in told
    field = words(visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode())
    assert "Host weeds: By the ditch." in field


def test_notes_of_scouts_are_not_shown_to_growers(people: People, on_the_way: str) -> None:
    client = visitor(people.gil)
    for path in (f"/walks/{on_the_way}", f"/fields/{people.home.public_id}"):
        page = client.get(path).content.decode()
        assert "ditch" not in page
        assert "Sand blown in." not in page


def test_a_walk_from_a_phone_is_not_left_out_here(people: People, on_the_way: str) -> None:
    client = visitor(people.alice)
    assert "/strike" not in client.get(f"/walks/{on_the_way}").content.decode()
    answer = client.post(f"/walks/{on_the_way}/strike", {"sure": "on"})
    assert answer.status_code == 422
    assert "is struck on that phone" in words(answer.content.decode())
