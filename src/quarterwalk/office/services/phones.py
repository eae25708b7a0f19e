"""Phones: paired by a code that is used once, known by a token, ended at any time."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import transaction
from django.utils.dateparse import parse_datetime

from quarterwalk.journal import DEVICE_LENGTH, is_id
from quarterwalk.office import clock
from quarterwalk.office.access import may_walk
from quarterwalk.office.models import Device, DeviceKind, District, PairingCode, Person
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.tokens import hashed, new_code, new_token, plain_code

CODE_LIVES = timedelta(minutes=15)
"""How long a pairing code waits for its phone."""

LONGEST_LABEL = 60
"""Letters of a phone's name. [count]"""

_SEEN_EVERY = timedelta(minutes=1)


@transaction.atomic
def make_code(*, person: Person, district: District) -> str:
    """Make a code that pairs one phone with somebody; an older one ends.

    Parameters
    ----------
    person : Person
        Whose phone it will be.
    district : District
        Whose fields it will walk.

    Returns
    -------
    str
        Such as ``7KQ4-M2XD``; it is shown once.

    Raises
    ------
    ServiceRefused
        If they may not walk there.
    """
    if not may_walk(person, district):
        raise ServiceRefused("Only leads and scouts pair a phone.")
    now = clock.now()
    PairingCode.objects.filter(person=person, used_at=None).update(ends_at=now)
    code = new_code()
    PairingCode.objects.create(
        code_hash=hashed(plain_code(code)),
        person=person,
        district=district,
        made_at=now,
        ends_at=now + CODE_LIVES,
    )
    return code


@transaction.atomic
def pair(*, code: str, label: str, again: str = "") -> tuple[Device, str] | None:
    """Pair a phone; its code is used up.

    A phone that was paired before, by the same person in the same district, keeps its id, so
    that what it has not sent yet is still its own.

    Parameters
    ----------
    code : str
        As it was typed.
    label : str
        What the phone is called.
    again : str
        The id that the phone had; empty for one that never had any.

    Returns
    -------
    (Device, str) or None
        The device and its token, which is given out once; None where the code is unknown,
        used or has ended, and where its person may not walk any more.
    """
    now = clock.now()
    codes = PairingCode.objects.filter(
        code_hash=hashed(plain_code(code)), used_at=None, ends_at__gt=now
    )
    found = codes.select_related("person", "district").first()
    if found is None or not may_walk(found.person, found.district):
        return None
    if not codes.filter(pk=found.pk).update(used_at=now):
        return None
    token = new_token()
    device = _device_again(found, again)
    device.label = "".join(filter(str.isprintable, label)).strip()[:LONGEST_LABEL]
    device.token_hash, device.paired_at, device.revoked_at = hashed(token), now, None
    device.save()
    return device, token


def _device_again(code: PairingCode, device_id: str) -> Device:
    """Give the device that the same person paired here before, else a new one."""
    own = Device.objects.filter(kind=DeviceKind.PHONE, district=code.district, person=code.person)
    known = own.filter(device_id=device_id).first() if is_id(device_id, DEVICE_LENGTH) else None
    return known or Device(kind=DeviceKind.PHONE, district=code.district, person=code.person)


def revoke(*, device: Device) -> None:
    """End a phone's pairing; what it wrote stays.

    Parameters
    ----------
    device : Device
        The phone.
    """
    Device.objects.filter(pk=device.pk, revoked_at=None).update(revoked_at=clock.now())


def device_of(token: str) -> Device | None:
    """Find the phone of a token.

    Parameters
    ----------
    token : str
        As the phone sent it.

    Returns
    -------
    Device or None
        None where it is unknown or was ended.
    """
    phones = Device.objects.select_related("district", "person")
    return phones.filter(token_hash=hashed(token), revoked_at=None, person__is_active=True).first()


def seen(*, device: Device, phone_now: str) -> None:
    """Keep when a phone was last heard of, and how far its clock is from the office's.

    Parameters
    ----------
    device : Device
        The phone.
    phone_now : str
        Its wall time as it says; may be anything.
    """
    now = clock.now()
    if device.seen_at is not None and now - device.seen_at < _SEEN_EVERY:
        return
    phones, told = Device.objects.filter(pk=device.pk), _time(phone_now)
    if told is None:
        phones.update(seen_at=now)
    else:
        phones.update(seen_at=now, skew_ms=round((told - now).total_seconds() * 1000))


def _time(text: str) -> datetime | None:
    try:
        told = parse_datetime(text)
    except ValueError:
        return None
    return told if told is not None and told.tzinfo is not None else None
