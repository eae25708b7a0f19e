"""The five things that a phone asks."""

from __future__ import annotations

import json
from http import HTTPStatus

from allauth.core.ratelimit import consume
from django.conf import settings
from django.http import HttpRequest, HttpResponse

from quarterwalk.journal import split_lines, time_text
from quarterwalk.office import clock
from quarterwalk.office.access import may_walk
from quarterwalk.office.models import CardRow, Device
from quarterwalk.office.services import phones
from quarterwalk.office.services.journal import take
from quarterwalk.office.sync.answers import (
    MOST_LINES,
    Cut,
    TooLarge,
    body_of,
    by_phone,
    open_to_phones,
    refused,
    told,
)
from quarterwalk.office.sync.day import day_of
from quarterwalk.office.sync.states import states_of


@open_to_phones("POST")
def pair(request: HttpRequest) -> HttpResponse:
    """Pair a phone by a code that a signed-in person was shown."""
    if not consume(request, action="pair"):
        return refused("slow", HTTPStatus.TOO_MANY_REQUESTS)
    try:
        asked = json.loads(body_of(request))
        code, label = str(asked["code"]), str(asked.get("label", ""))
        again = str(asked.get("device", ""))
    except (Cut, TooLarge, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return refused("code", HTTPStatus.NOT_FOUND)
    paired = phones.pair(code=code, label=label, again=again)
    if paired is None:
        return refused("code", HTTPStatus.NOT_FOUND)
    device, token = paired
    person, district = device.person, device.district
    return told(
        {
            "device": device.device_id,
            "token": token,
            "person": {"id": person.public_id, "name": person.name} if person else None,
            "district": {"id": district.public_id, "name": district.name},
            "now": time_text(clock.now()),
            "shift_ms": settings.SHIFT_MS,
        }
    )


@open_to_phones("GET")
@by_phone
def day(_request: HttpRequest, device: Device) -> HttpResponse:
    """Tell what is to be walked, and which card each field has today."""
    return told({"now": time_text(clock.now()), "shift_ms": settings.SHIFT_MS, **day_of(device)})


@open_to_phones("GET")
@by_phone
def card(_request: HttpRequest, device: Device, sha256: str) -> HttpResponse:
    """Give out a card, byte for byte as it was named."""
    cards = CardRow.objects.filter(sha256=sha256, field__district=device.district_id)
    found = cards.first()
    if found is None or device.person is None or not may_walk(device.person, device.district):
        return refused("card", HTTPStatus.NOT_FOUND)
    return HttpResponse(bytes(found.raw), content_type="application/json")


@open_to_phones("POST")
@by_phone
def entries(request: HttpRequest, device: Device) -> HttpResponse:
    """Take a batch of entries, and answer each by itself once it is on the disk."""
    try:
        body = body_of(request)
    except TooLarge:
        return refused("size", HTTPStatus.REQUEST_ENTITY_TOO_LARGE)
    except Cut:
        return refused("cut", HTTPStatus.BAD_REQUEST)
    if len(split_lines(body)) > MOST_LINES:
        return refused("size", HTTPStatus.REQUEST_ENTITY_TOO_LARGE)
    answers = take(device, body)
    walks = [answer.walk for answer in answers if answer.walk]
    return told(
        {
            "now": time_text(clock.now()),
            "answers": [
                {
                    "device": answer.key.device if answer.key else None,
                    "seq": answer.key.seq if answer.key else None,
                    "answer": answer.answer,
                    **({"why": answer.why} if answer.why else {}),
                }
                for answer in answers
            ],
            "walks": states_of(device, walks),
        }
    )


@open_to_phones("GET")
@by_phone
def walks(request: HttpRequest, device: Device) -> HttpResponse:
    """Tell how some walks stand, and the calls on them."""
    asked = request.GET.getlist("id")[:MOST_LINES]
    return told({"now": time_text(clock.now()), "walks": states_of(device, asked)})
