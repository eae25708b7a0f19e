"""Phones: a code pairs one, once, within a quarter of an hour."""

from __future__ import annotations

import pytest

from quarterwalk.office.models import Device, Membership, PairingCode
from quarterwalk.office.services import phones
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.tokens import new_code, plain_code
from tests.office.conftest import Moment
from tests.office.people import People


def code(people: People) -> str:
    return phones.make_code(person=people.bob, district=people.near)


def test_a_code_is_eight_letters_that_are_told_apart(people: People) -> None:
    made = {new_code() for _ in range(200)}
    assert len(made) == 200
    assert all(len(one) == 9 and one[4] == "-" and not set(one) & set("ILOU") for one in made)
    assert code(people) not in str(list(PairingCode.objects.values()))


@pytest.mark.parametrize(
    "typed",
    [str.lower, str.upper, lambda c: c.replace("-", ""), lambda c: f" {c[:2]} {c[2:]} ",
     lambda c: c.replace("0", "O").replace("1", "l"), lambda c: c.replace("1", "I")],
)  # fmt: skip
def test_a_code_is_read_however_it_is_typed(people: People, typed: object) -> None:
    assert phones.pair(code=typed(code(people)), label="x") is not None  # type: ignore[operator]


def test_letters_that_no_code_has_are_read_as_those_they_look_like() -> None:
    assert plain_code("oO-iIlL uU") == "001111vv"


def test_a_code_pairs_once(people: People) -> None:
    made = code(people)
    paired = phones.pair(code=made, label="a")
    assert paired is not None
    assert phones.pair(code=made, label="b") is None
    assert Device.objects.count() == 1


def test_a_code_waits_a_quarter_of_an_hour(people: People, moment: Moment) -> None:
    first, second = code(people), None
    moment.later(minutes=15)
    assert phones.pair(code=first, label="") is None
    second = code(people)
    moment.later(minutes=14, seconds=59)
    assert phones.pair(code=second, label="") is not None


def test_a_newer_code_ends_the_older(people: People) -> None:
    old, new = code(people), code(people)
    assert phones.pair(code=old, label="") is None
    assert phones.pair(code=new, label="") is not None


def test_who_may_not_walk_pairs_no_phone(people: People) -> None:
    for person, district in ((people.gil, people.near), (people.charlie, people.near)):
        with pytest.raises(ServiceRefused):
            phones.make_code(person=person, district=district)
    made = code(people)
    Membership.objects.filter(person=people.bob).delete()
    assert phones.pair(code=made, label="") is None


@pytest.mark.parametrize("typed", ["", "-", "AAAA-AAAA", "\ud800", "x" * 10_000])
def test_what_is_no_code_pairs_nothing(people: People, typed: str) -> None:
    code(people)
    assert phones.pair(code=typed, label="") is None


def test_a_token_is_its_phones_until_it_is_ended(people: People) -> None:
    paired = phones.pair(code=code(people), label=" my phone ")
    assert paired is not None
    device, token = paired
    assert device.label == "my phone"
    assert phones.device_of(token) == device
    assert phones.device_of(token.upper()) is None
    assert phones.device_of("") is None
    phones.revoke(device=device)
    ended = Device.objects.get().revoked_at
    phones.revoke(device=device)
    assert phones.device_of(token) is None
    assert Device.objects.get().revoked_at == ended is not None


@pytest.mark.parametrize(
    "told",
    ["", "now", "2026-06-18", "2026-06-18T13:00:00", "2026-13-01T00:00:00Z", "9" * 300, "\ud800",
     "2026-06-18T13:00:00+99:99", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00"],
)  # fmt: skip
def test_whatever_time_a_phone_tells_does_no_harm(
    people: People, moment: Moment, told: str
) -> None:
    paired = phones.pair(code=code(people), label="")
    assert paired is not None
    phones.seen(device=paired[0], phone_now=told)
    assert Device.objects.get().seen_at == moment.now
