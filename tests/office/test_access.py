"""A row that a person may not see does not exist: every row, every person."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from quarterwalk.office import access
from quarterwalk.office.models import (
    Device,
    EntryState,
    JournalEntry,
    Membership,
    Person,
    Role,
    WalkRow,
)
from quarterwalk.office.services.walks import strike_walk
from tests.office.people import NOBODY, People, phone
from tests.office.seasoned import walk_in
from tests.office.sender import Sender

pytestmark = pytest.mark.django_db
User = Person | AnonymousUser
EVERYBODY = ("alice", "bob", "gil", "charlie", "nobody")


def user(people: People, name: str) -> User:
    return NOBODY if name == "nobody" else getattr(people, name)


def who_gets(people: People, ask: Callable[[User], Any]) -> set[str]:
    """Say who gets an answer; everybody else must be told that there is no such row."""
    got = set()
    for name in EVERYBODY:
        try:
            ask(user(people, name))
        except Http404:
            continue
        got.add(name)
    return got


FIELDS = {
    "home": ({"alice", "bob", "gil"}, {"alice", "bob"}, {"alice"}),
    "east": ({"alice", "bob"}, {"alice", "bob"}, {"alice"}),
    "away": ({"charlie"}, {"charlie"}, {"charlie"}),
}


@pytest.mark.parametrize("name", FIELDS)
def test_who_sees_walks_and_leads_a_field(people: People, name: str) -> None:
    field_id = getattr(people, name).public_id
    see, walk, lead = FIELDS[name]
    assert who_gets(people, lambda who: access.field_seen(who, field_id)) == see
    assert who_gets(people, lambda who: access.field_walked(who, field_id)) == walk
    assert who_gets(people, lambda who: access.field_led(who, field_id)) == lead


def test_a_field_that_never_was_is_told_as_one_that_may_not_be_seen(people: People) -> None:
    said = set()
    for field_id in ("00000000", people.away.public_id):
        with pytest.raises(Http404) as refused:
            access.field_seen(people.bob, field_id)
        said.add(str(refused.value))
    assert len(said) == 1


def test_a_list_of_fields_holds_those_that_one_may_see(people: People) -> None:
    def names(person: Person) -> list[str]:
        return [field.name for field in access.fields_seen(people.part(person))]

    assert names(people.alice) == names(people.bob) == ["East 80", "Home 80"]
    assert names(people.gil) == ["Home 80"]
    assert names(people.charlie) == ["Away 80"]


def test_who_sees_and_leads_a_walk(people: People) -> None:
    for field, by, see, lead in (
        (people.home, people.bob, {"alice", "bob", "gil"}, {"alice"}),
        (people.east, people.bob, {"alice", "bob"}, {"alice"}),
        (people.away, people.charlie, {"charlie"}, {"charlie"}),
    ):
        walk_id = walk_in(field, by, nymphs=0, lost=0)
        assert who_gets(people, lambda who, w=walk_id: access.walk_seen(who, w)) == see
        assert who_gets(people, lambda who, w=walk_id: access.walk_led(who, w)) == lead


def test_a_grower_sees_no_walk_that_was_struck(people: People) -> None:
    walk_id = walk_in(people.home, people.bob, nymphs=0, lost=0)
    strike_walk(walk=WalkRow.objects.get(walk_id=walk_id), by=people.alice)
    assert who_gets(people, lambda who: access.walk_seen(who, walk_id)) == {"alice", "bob"}


def test_a_grower_sees_no_walk_whose_field_is_not_known_yet(bobs: Sender, people: People) -> None:
    opened = bobs.open(people.home)
    assert bobs.send(bobs.check(opened["walk"], "NW", 1)).status_code == 200
    assert who_gets(people, lambda who: access.walk_seen(who, opened["walk"])) == {"alice", "bob"}


def test_only_a_lead_of_the_district_decides_on_an_entry(bobs: Sender, people: People) -> None:
    bobs.send(b"{}")
    [waits] = JournalEntry.objects.filter(state=EntryState.QUARANTINED)
    assert who_gets(people, lambda who: access.entry_to_decide(who, waits.pk)) == {"alice"}
    waiting = {
        name: access.entries_waiting(people.part(getattr(people, name))).count()
        for name in EVERYBODY[:-1]
    }
    assert waiting == {"alice": 1, "bob": 0, "gil": 0, "charlie": 0}


def test_an_entry_that_counts_is_not_there_to_decide_on(bobs: Sender, people: People) -> None:
    bobs.send(bobs.open(people.home))
    [held] = JournalEntry.objects.all()
    assert who_gets(people, lambda who: access.entry_to_decide(who, held.pk)) == set()


def test_a_scout_sees_and_ends_their_own_phones_a_lead_all(people: People) -> None:
    alices, bobs = phone(people.alice, people.near)[0], phone(people.bob, people.near)[0]
    theirs = phone(people.charlie, people.far)[0]

    def ends(device: Device) -> set[str]:
        return who_gets(people, lambda who: access.device_seen(who, device.device_id))

    assert (ends(alices), ends(bobs), ends(theirs)) == ({"alice"}, {"alice", "bob"}, {"charlie"})


def test_the_office_s_own_device_is_nobody_s_phone(people: People) -> None:
    walk_in(people.home, people.bob, nymphs=0, lost=0)
    [own] = Device.objects.filter(district=people.near)
    assert who_gets(people, lambda who: access.device_seen(who, own.device_id)) == set()


def test_only_a_lead_changes_the_parts_of_their_own_district(people: People) -> None:
    bobs, theirs = people.part(people.bob), people.part(people.charlie)
    assert who_gets(people, lambda who: access.membership_led(who, bobs.pk)) == {"alice"}
    assert who_gets(people, lambda who: access.membership_led(who, theirs.pk)) == {"charlie"}


def test_who_leads_and_who_walks_in_a_district(people: People) -> None:
    assert who_gets(people, lambda who: access.lead_of(who, people.near)) == {"alice"}
    assert who_gets(people, lambda who: access.walker_of(who, people.near)) == {"alice", "bob"}
    assert [person.name for person in access.walkers(people.near)] == ["Alice Marr", "Bob Tarn"]


def test_a_district_of_others_can_not_be_chosen(people: People) -> None:
    far = people.far.public_id
    assert who_gets(people, lambda who: access.part_of(who, far)) == {"charlie"}


def test_somebody_with_a_part_in_two_districts_has_the_rights_of_each(people: People) -> None:
    Membership.objects.create(person=people.bob, district=people.far, role=Role.LEAD)
    away, home = people.away.public_id, people.home.public_id
    assert access.field_led(people.bob, away) == people.away
    with pytest.raises(Http404):
        access.field_led(people.bob, home)


def test_who_may_not_sign_in_any_more_sees_nothing(people: People) -> None:
    Person.objects.filter(pk=people.bob.pk).update(is_active=False)
    people.bob.refresh_from_db()
    assert who_gets(people, lambda who: access.field_seen(who, people.home.public_id)) == {
        "alice",
        "gil",
    }
    assert not access.may_walk(people.bob, people.near)
    assert people.bob not in access.walkers(people.near)
