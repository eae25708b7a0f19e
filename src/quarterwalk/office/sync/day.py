"""The day as a phone shows it: which fields, which is due, and which card each has."""

from __future__ import annotations

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

from quarterwalk.call.verdict import verdict_words
from quarterwalk.card import LastCall
from quarterwalk.office import clock
from quarterwalk.office.access import may_walk, walkers
from quarterwalk.office.models import Device, FieldRow
from quarterwalk.office.services.cards import Given, cards_for
from quarterwalk.office.services.due import Due, due_fields, with_season

Json = dict[str, Any]


def day_of(device: Device) -> Json:
    """Tell what is to be walked today.

    Parameters
    ----------
    device : Device
        The phone that asks.

    Returns
    -------
    dict
        As phones read it; no field and nobody where its person may not walk any more.
    """
    district, person = device.district, device.person
    told: Json = {
        "person": {"id": person.public_id, "name": person.name} if person else None,
        "district": {
            "id": district.public_id,
            "name": district.name,
            "demo": district.is_demo,
        },
        "scouts": [],
        "fields": [],
    }
    if person is None or not may_walk(person, district):
        return told
    told["scouts"] = [{"id": each.public_id, "name": each.name} for each in walkers(district)]
    today = clock.today(district)
    due = due_fields(with_season(FieldRow.objects.filter(district=district)), today)
    last = {each.field.pk: _last(each) for each in due}
    known = {pk: call for pk, call in last.items() if call is not None}
    cards = cards_for([each.field for each in due], today, known)
    told["fields"] = [_field(each, cards[each.field.pk], known, today) for each in due]
    return told


def _last(due: Due) -> LastCall | None:
    if due.last is None or due.last.call is None:
        return None
    return LastCall(due.last.walk.date, due.last.call.verdict)


def _field(due: Due, card: Given, known: dict[int, LastCall], today: date) -> Json:
    field, last = due.field, known.get(due.field.pk)
    until = field.closed_until
    closed = until is not None and until > clock.now()
    return {
        "id": field.public_id,
        "name": field.name,
        "grower": field.grower.name if field.grower else "",
        "farm": field.farm,
        "acres": round(field.acres, 1),
        "due": {
            "on": None if due.on is None else due.on.isoformat(),
            "text": due.why,
            "now": due.on is not None and due.on <= today,
        },
        "stage": due.stage,
        "last": None
        if last is None
        else {
            "on": last.on.isoformat(),
            "verdict": last.verdict.value,
            "words": verdict_words(last.verdict),
        },
        "closed_until": until.astimezone(ZoneInfo(field.district.time_zone)).isoformat()
        if until is not None and closed
        else None,
        "card": card.sha256 if card.walkable else None,
        "no_card": None if card.walkable else card.why_not,
    }
