"""Row by row: what Alice, Bob, Gil, Charlie and nobody may reach; all else is not there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.http import Http404

from quarterwalk.crop import Seen
from quarterwalk.office import access, access_season
from quarterwalk.office.models import Device, JournalEntry, Membership, StationRow, WalkRow
from quarterwalk.office.services.journal import decide, office_device
from quarterwalk.office.services.seen import note_seen
from tests.office.people import NOBODY, People
from tests.office.seasoned import DAY
from tests.office.sender import Sender
from tests.office.weathered import station, weathered

ALL = {"alice", "bob", "gil"}
WALK = {"alice", "bob"}
LEAD = {"alice"}


@pytest.fixture
def ground(people: People) -> dict[str, Any]:
    """Give walks in every state, phones, and entries that wait."""
    bobs = Sender(people.bob, people.near)
    charlies = Sender(people.charlie, people.far)
    home, east = bobs.walk(people.home, 4), bobs.walk(people.east, 4)
    unopened = bobs.check(f"{bobs.device.device_id}-900", "NW", 1)
    unopened["seq"] = 950
    void = bobs.open(people.home)
    struck = bobs.say("struck", {"seq": void["seq"]}, void["walk"])
    bobs.send(*home, *east, unopened, void, struck, b"{")
    charlies.send(*charlies.walk(people.away, 4), b"{")
    day = (DAY, DAY)
    weathered(people.near, station(days=day))
    weathered(people.far, station(days=day))
    return {
        "station": StationRow.objects.get(district=people.near),
        "station away": StationRow.objects.get(district=people.far),
        "bob saw": note_seen(field=people.home, seen=Seen(DAY, nodes=7), by=people.bob),
        "alice saw": note_seen(field=people.east, seen=Seen(DAY, nodes=7), by=people.alice),
        "home walk": home[0]["walk"],
        "east walk": east[0]["walk"],
        "void walk": void["walk"],
        "unopened walk": unopened["walk"],
        "away walk": WalkRow.objects.get(field=people.away).walk_id,
        "bobs": bobs.device,
        "charlies": charlies.device,
        "alices": Sender(people.alice, people.near).device,
        "waits": JournalEntry.objects.get(device=bobs.device, state="quarantined"),
        "waits away": JournalEntry.objects.get(device=charlies.device, state="quarantined"),
    }


Reach = Callable[[Any, People, dict[str, Any]], Any]
ONE: dict[str, tuple[Reach, set[str]]] = {
    "home seen": (lambda u, p, g: access.field_seen(u, p.home.public_id), ALL),
    "home walked": (lambda u, p, g: access.field_walked(u, p.home.public_id), WALK),
    "home led": (lambda u, p, g: access.field_led(u, p.home.public_id), LEAD),
    "east seen": (lambda u, p, g: access.field_seen(u, p.east.public_id), WALK),
    "away seen": (lambda u, p, g: access.field_seen(u, p.away.public_id), {"charlie"}),
    "away walked": (lambda u, p, g: access.field_walked(u, p.away.public_id), {"charlie"}),
    "away led": (lambda u, p, g: access.field_led(u, p.away.public_id), {"charlie"}),
    "no field": (lambda u, p, g: access.field_seen(u, "zzzzzzzz"), set()),
    "home walk seen": (lambda u, p, g: access.walk_seen(u, g["home walk"]), ALL),
    "home walk led": (lambda u, p, g: access.walk_led(u, g["home walk"]), LEAD),
    "east walk seen": (lambda u, p, g: access.walk_seen(u, g["east walk"]), WALK),
    "void walk seen": (lambda u, p, g: access.walk_seen(u, g["void walk"]), WALK),
    "unopened walk seen": (lambda u, p, g: access.walk_seen(u, g["unopened walk"]), WALK),
    "away walk seen": (lambda u, p, g: access.walk_seen(u, g["away walk"]), {"charlie"}),
    "away walk led": (lambda u, p, g: access.walk_led(u, g["away walk"]), {"charlie"}),
    "near led": (lambda u, p, g: access.lead_of(u, p.near), LEAD),
    "near walked": (lambda u, p, g: access.walker_of(u, p.near), WALK),
    "far led": (lambda u, p, g: access.lead_of(u, p.far), {"charlie"}),
    "far walked": (lambda u, p, g: access.walker_of(u, p.far), {"charlie"}),
    "part near": (lambda u, p, g: access.part_of(u, p.near.public_id), ALL),
    "part far": (lambda u, p, g: access.part_of(u, p.far.public_id), {"charlie"}),
    "any part": (lambda u, p, g: access.part_of(u), ALL | {"charlie"}),
    "entry": (lambda u, p, g: access.entry_to_decide(u, g["waits"].pk), LEAD),
    "entry away": (lambda u, p, g: access.entry_to_decide(u, g["waits away"].pk), {"charlie"}),
    "no entry": (lambda u, p, g: access.entry_to_decide(u, 10**30), set()),
    "bob's phone": (lambda u, p, g: access.device_seen(u, g["bobs"].device_id), WALK),
    "alice's phone": (lambda u, p, g: access.device_seen(u, g["alices"].device_id), LEAD),
    "charlie's phone": (
        lambda u, p, g: access.device_seen(u, g["charlies"].device_id), {"charlie"},
    ),
    "station": (lambda u, p, g: access_season.station_led(u, g["station"].pk), LEAD),
    "station away": (
        lambda u, p, g: access_season.station_led(u, g["station away"].pk), {"charlie"},
    ),
    "bob's note": (lambda u, p, g: access_season.seen_to_strike(u, g["bob saw"].pk), WALK),
    "alice's note": (lambda u, p, g: access_season.seen_to_strike(u, g["alice saw"].pk), LEAD),
    "bob's part": (lambda u, p, g: access.membership_led(u, p.part(p.bob).pk), LEAD),
    "charlie's part": (lambda u, p, g: access.membership_led(u, p.part(p.charlie).pk), {"charlie"}),
}  # fmt: skip


def reaches(reach: Reach, user: Any, people: People, ground: dict[str, Any]) -> bool:
    try:
        reach(user, people, ground)
    except Http404:
        return False
    return True


@pytest.mark.parametrize("what", ONE)
def test_a_row_is_there_for_whom_it_is_meant(
    people: People, ground: dict[str, Any], what: str
) -> None:
    reach, who = ONE[what]
    users = {name: getattr(people, name) for name in ("alice", "bob", "gil", "charlie")}
    users["nobody"] = NOBODY
    assert {n for n, user in users.items() if reaches(reach, user, people, ground)} == who


@pytest.mark.parametrize("what", ONE)
def test_an_account_that_was_switched_off_reaches_nothing(
    people: People, ground: dict[str, Any], what: str
) -> None:
    for user in (people.alice, people.charlie):
        user.is_active = False
        assert not reaches(ONE[what][0], user, people, ground)


LISTS: dict[str, tuple[Callable[[Membership], Any], dict[str, int]]] = {
    "fields": (access.fields_seen, {"alice": 2, "bob": 2, "gil": 1, "charlie": 1}),
    "walks": (access.walks_seen, {"alice": 4, "bob": 4, "gil": 1, "charlie": 1}),
    "entries": (access.entries_waiting, {"alice": 1, "bob": 0, "gil": 0, "charlie": 1}),
    "stations": (access_season.stations_of, {"alice": 1, "bob": 0, "gil": 0, "charlie": 1}),
    "phones": (access.devices_seen, {"alice": 2, "bob": 1, "gil": 0, "charlie": 1}),
}


@pytest.mark.parametrize("what", LISTS)
def test_a_list_holds_what_each_may_see(people: People, ground: Any, what: str) -> None:
    give, counts = LISTS[what]
    assert {name: give(people.part(getattr(people, name))).count() for name in counts} == counts


def test_an_entry_that_counts_is_not_to_be_decided(people: People, ground: Any) -> None:
    held = JournalEntry.objects.filter(state="held", device=ground["bobs"]).first()
    assert held is not None
    with pytest.raises(Http404):
        access.entry_to_decide(people.alice, held.pk)
    decide(entry=ground["waits"], by=people.alice, take_it=False, why="torn")
    assert access.entry_to_decide(people.alice, ground["waits"].pk).state == "left-out"


def test_only_leads_and_scouts_walk_and_each_in_their_own_district(people: People) -> None:
    assert [p.name for p in access.walkers(people.near)] == ["Alice Marr", "Bob Tarn"]
    assert [p.name for p in access.walkers(people.far)] == ["Charlie Stow"]
    everybody = (people.alice, people.bob, people.gil, people.charlie)
    may = [
        [access.may_walk(who, where) for who in everybody] for where in (people.near, people.far)
    ]
    assert may == [[True, True, False, False], [False, False, False, True]]


def test_a_part_in_two_districts_reaches_both(people: People) -> None:
    Membership.objects.create(person=people.bob, district=people.far, role="lead")
    assert access.field_led(people.bob, people.away.public_id) == people.away
    assert access.field_seen(people.bob, people.home.public_id) == people.home
    with pytest.raises(Http404):
        access.field_led(people.bob, people.home.public_id)


def test_the_offices_own_device_is_no_phone_to_end(people: People, ground: Any) -> None:
    own = office_device(people.near)
    with pytest.raises(Http404):
        access.device_seen(people.alice, own.device_id)
    assert Device.objects.filter(kind="office").count() == 1
