"""Phones: paired once by a code that soon ends, known by a token nobody keeps, ended at will."""

from __future__ import annotations

import pytest

from quarterwalk.office.models import Device, Membership, PairingCode, Role
from quarterwalk.office.services import people as changes
from quarterwalk.office.services import phones
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.tokens import hashed, new_code, plain_code
from tests.office.conftest import Moment
from tests.office.people import People, phone

pytestmark = pytest.mark.django_db


def test_a_code_pairs_one_phone_once(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    paired = phones.pair(code=code, label="Bob's phone")
    assert paired is not None
    device, token = paired
    assert (device.person, device.district, device.label) == (
        people.bob, people.near, "Bob's phone",
    )  # fmt: skip
    assert phones.device_of(token) == device
    assert phones.pair(code=code, label="again") is None
    assert Device.objects.count() == 1


def test_a_code_is_read_however_it_is_typed(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    typed = f" {code.lower().replace('-', ' ')} "
    assert phones.pair(code=typed, label="") is not None


@pytest.mark.parametrize("typed", ["", "7KQ4", "7KQ4-M2XDE", "ÄÖÜ", "\x00", "\ud800", "9" * 9999])
def test_what_is_no_code_pairs_nothing(people: People, typed: str) -> None:
    phones.make_code(person=people.bob, district=people.near)
    assert phones.pair(code=typed, label="") is None


def test_letters_that_are_read_for_others_do_not_matter() -> None:
    assert plain_code("O1IL-UVab") == "0111vvab"


def test_a_code_has_eight_letters_none_of_which_is_read_for_another() -> None:
    codes = {new_code() for _ in range(500)}
    assert len(codes) == 500
    assert all(len(code) == 9 and code[4] == "-" for code in codes)
    assert not set("ILOU") & set("".join(codes))


def test_a_code_lives_a_quarter_of_an_hour(people: People, moment: Moment) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    moment.later(minutes=14, seconds=59)
    early = phones.make_code(person=people.alice, district=people.near)
    assert phones.pair(code=code, label="") is not None
    moment.later(minutes=15)
    assert phones.pair(code=early, label="") is None


def test_a_new_code_ends_the_one_before(people: People) -> None:
    first = phones.make_code(person=people.bob, district=people.near)
    second = phones.make_code(person=people.bob, district=people.near)
    assert phones.pair(code=first, label="") is None
    assert phones.pair(code=second, label="") is not None


@pytest.mark.parametrize("name", ["gil", "charlie"])
def test_who_may_not_walk_gets_no_code(people: People, name: str) -> None:
    with pytest.raises(ServiceRefused, match="Only leads and scouts"):
        phones.make_code(person=getattr(people, name), district=people.near)


def test_a_code_is_worth_nothing_once_its_person_may_not_walk(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    Membership.objects.filter(person=people.bob).delete()
    assert phones.pair(code=code, label="") is None


def test_neither_code_nor_token_is_kept(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    [kept] = PairingCode.objects.all()
    assert kept.code_hash == hashed(plain_code(code))
    paired = phones.pair(code=code, label="")
    assert paired is not None
    device, token = paired
    assert device.token_hash == hashed(token)
    assert len(token) >= 43  # 32 bytes in letters of 6 bits


def test_a_label_is_cut_to_what_is_kept(people: People) -> None:
    code = phones.make_code(person=people.bob, district=people.near)
    paired = phones.pair(code=code, label="  Bob\x00's\ud800 phone " + "x" * 200)
    assert paired is not None
    stored = Device.objects.get(pk=paired[0].pk)
    assert stored.label.startswith("Bob's phone xxx")
    assert len(stored.label) == 60


def test_a_phone_that_was_ended_is_not_known_any_more(people: People, moment: Moment) -> None:
    device, token = phone(people.bob, people.near)
    phones.revoke(device=device)
    ended = moment.now
    assert phones.device_of(token) is None
    moment.later(hours=1)
    phones.revoke(device=device)
    device.refresh_from_db()
    assert device.revoked_at == ended


def test_the_phones_of_who_is_taken_away_end(people: People) -> None:
    _, token = phone(people.bob, people.near)
    changes.take_away(part=people.part(people.bob))
    assert phones.device_of(token) is None


def test_the_phone_of_who_becomes_a_grower_is_known_and_walks_nothing(people: People) -> None:
    _, token = phone(people.bob, people.near)
    changes.change_role(
        part=people.part(people.bob), role=Role.GROWER, grower=people.home.grower
    )
    assert phones.device_of(token) is not None


@pytest.mark.parametrize("token", ["", "x", "\x00", "\udcff"])
def test_no_phone_has_another_token(people: People, token: str) -> None:
    phone(people.bob, people.near)
    assert phones.device_of(token) is None


def test_a_phone_s_clock_is_kept_as_far_as_it_is_off(people: People, moment: Moment) -> None:
    device, _ = phone(people.bob, people.near)
    phones.seen(device=device, phone_now="2026-06-18T13:02:00.250-05:00")
    device.refresh_from_db()
    assert (device.seen_at, device.skew_ms) == (moment.now, 120_250)


@pytest.mark.parametrize("said", ["", "now", "2026-06-18", "2026-06-18T13:00:00", "2026-99-99T"])
def test_a_clock_that_says_nothing_leaves_what_was_known(
    people: People, moment: Moment, said: str
) -> None:
    device, _ = phone(people.bob, people.near)
    phones.seen(device=device, phone_now="2026-06-18T13:00:01.000-05:00")
    device.refresh_from_db()
    moment.later(hours=1)
    phones.seen(device=device, phone_now=said)
    device.refresh_from_db()
    assert (device.seen_at, device.skew_ms) == (moment.now, 1000)
