"""Every address of the office, for everybody who may come to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

import pytest
from django.core.cache import cache
from django.db import transaction
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from pytest_django import Settings

from quarterwalk.crop import Seen
from quarterwalk.office import clock
from quarterwalk.office.models import JournalEntry, Membership, Person, StationRow
from quarterwalk.office.services import journal
from quarterwalk.office.services.people import new_link
from quarterwalk.office.services.seen import note_seen
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.walk import InsectCount, PlantCheck, Quadrant
from tests.browser.url_roles import FORMS, WHO, rows
from tests.office.people import People, phone, settle
from tests.office.weathered import planted, weathered

ROWS = rows()


@dataclass(frozen=True, slots=True)
class Place:
    """The office of these tests: who comes, and what stands in its addresses."""

    who: dict[str, Person | None]
    values: dict[str, dict[str, str | int]]
    district: str


@pytest.fixture(autouse=True)
def _quick(settings: Settings) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.CACHES = {"default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}}


@pytest.fixture
def place(db: None) -> Place:
    """Settle Alice's district, with a walk, a phone, and an entry that waits."""
    here = settle()
    walk = {"walk_id": _walked(here)}
    device, _ = phone(here.bob, here.near)
    journal.take(device, b"no entry at all")
    entry = {"pk": JournalEntry.objects.get(state="quarantined").pk}
    field = {"field_id": here.home.public_id}
    bob = {"pk": here.part(here.bob).pk}
    weathered(here.near)
    planted(here.home, clock.today(here.near))
    saw = note_seen(field=here.east, seen=Seen(clock.today(here.near), nodes=8), by=here.bob)
    values: dict[str, dict[str, str | int]] = {
        "seen-strike": {"pk": saw.pk},
        "weather-remove": {"pk": StationRow.objects.get().pk},
        "entry": entry,
        "phone-revoke": {"device_id": device.device_id},
        "join": {"token": _newcomers(here)},
        "begin": {"token": "nothing"},
        "phone-file": {"name": "index.html"},
        "sync-card": {"sha256": "0" * 64},
        **dict.fromkeys(("field", "field-rule", "field-dates", "field-closed", "desk-walk"), field),
        **dict.fromkeys(("field-season", "field-season-pdf", "field-seen"), field),
        **dict.fromkeys(("walk", "walk-table", "walk-strike"), walk),
        **dict.fromkeys(("person-role", "person-link", "person-remove"), bob),
    }
    comes = (here.alice, here.bob, here.gil, here.charlie, None)
    return Place(dict(zip(WHO, comes, strict=True)), values, here.near.public_id)


def _walked(here: People) -> str:
    check = PlantCheck(Quadrant.NW, 1, insects=InsectCount(0, 0))
    on = clock.today(here.near) - timedelta(days=1)
    return enter_walk(field=here.home, on=on, scout="Bob Tarn", checks=[check], by=here.bob)


def _newcomers(here: People) -> str:
    new = Person.objects.create(sign_in_name="orla", name="Orla Finch")
    return new_link(Membership.objects.create(person=new, district=here.near, role="scout"))


def test_the_table_names_every_address_with_both_methods() -> None:
    named = {(name, method) for name, method, _ in ROWS}
    assert len(named) == len(ROWS)
    assert named == {(name, method) for name in _names() for method in ("GET", "POST")}


def _names() -> set[str]:
    found = set()
    for pattern in _patterns(get_resolver("quarterwalk.office.urls").url_patterns):
        assert pattern.name, f"{pattern.pattern} has no name"
        found.add(pattern.name)
    return found


def _patterns(patterns: list[URLPattern | URLResolver]) -> Iterator[URLPattern]:
    for each in patterns:
        if isinstance(each, URLResolver):
            yield from _patterns(each.url_patterns)
        else:
            yield each


@pytest.mark.parametrize(
    ("name", "method", "answers"), ROWS, ids=[f"{name}-{method}" for name, method, _ in ROWS]
)
def test_everybody_gets_what_the_table_says(
    place: Place, name: str, method: str, answers: dict[str, int]
) -> None:
    got = {who: _answer(place, name, method, who) for who in WHO}
    assert got == answers


def _answer(place: Place, name: str, method: str, who: str) -> int:
    """Ask once, and undo whatever it changed, so that the next one finds it as it was."""
    client = Client()
    person = place.who[who]
    if person is not None:
        client.force_login(person, backend="allauth.account.auth_backends.AuthenticationBackend")
    cache.clear()
    form = FORMS.get(name, {})
    if isinstance(form, str):
        sent = {"data": form, "content_type": "application/json"}
    else:
        sent = {"data": {key: text.format(district=place.district) for key, text in form.items()}}
    with transaction.atomic():
        address = reverse(name, kwargs=place.values.get(name))
        answer = client.get(address) if method == "GET" else client.post(address, **sent)
        transaction.set_rollback(True)
    return int(answer.status_code)
