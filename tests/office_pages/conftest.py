"""What the tests of pages share: people, a fixed day at the office, and a field with a walk."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from django.utils import timezone
from pytest_django import Settings

from tests.office.people import People, settle
from tests.office_pages.walked import judge, walk_in

NOON = datetime(2026, 7, 1, 17, tzinfo=UTC)
"""Noon of the first of July where the invented fields lie."""


@pytest.fixture(autouse=True)
def _office_of_july(settings: Settings) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.SHIFT_MS = (NOON - timezone.now()) // timedelta(milliseconds=1)
    settings.CACHES = {"default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}}


@pytest.fixture
def people(db: None) -> People:
    """Give Alice who leads, Bob who scouts, Gil who grows, and Charlie who leads elsewhere."""
    return settle()


@pytest.fixture
def walk_id(people: People) -> str:
    """Give a walk of Gil's field on the first of July that says treat."""
    judge(people.home)
    return walk_in(people.home, people.bob, date(2026, 7, 1), nymphs=9, lost=2)
