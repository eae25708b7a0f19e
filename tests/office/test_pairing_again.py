"""A phone whose pairing was ended is paired again and goes on as the phone it was."""

from __future__ import annotations

from quarterwalk.office.models import Device, District, Person
from quarterwalk.office.services import phones
from tests.office.people import People


def paired(person: Person, district: District, again: str = "") -> tuple[Device, str]:
    code = phones.make_code(person=person, district=district)
    made = phones.pair(code=code, label="a phone", again=again)
    assert made is not None
    return made


def test_the_same_person_gets_the_same_device_with_another_token(people: People) -> None:
    device, token = paired(people.bob, people.near)
    phones.revoke(device=device)
    again, other = paired(people.bob, people.near, device.device_id)
    assert again.device_id == device.device_id
    assert phones.device_of(token) is None
    assert phones.device_of(other) is not None


def test_nobody_takes_another_persons_device_over(people: People) -> None:
    device, token = paired(people.bob, people.near)
    theirs, _ = paired(people.alice, people.near, device.device_id)
    assert theirs.device_id != device.device_id
    assert phones.device_of(token) == device


def test_a_device_of_another_district_stays_there(people: People) -> None:
    device, _ = paired(people.charlie, people.far)
    theirs, _ = paired(people.bob, people.near, device.device_id)
    assert theirs.device_id != device.device_id


def test_an_id_that_can_not_be_is_as_none(people: People) -> None:
    device, _ = paired(people.bob, people.near, "\x00" * 12)
    assert device.device_id.isalnum()
