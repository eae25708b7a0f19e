"""What the tests of the office share: its people, and a PostgreSQL of their own."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import count

import psycopg
import pytest
from django.db import connection
from pytest_django import Settings

from quarterwalk.office import clock
from tests.conftest import DATABASE
from tests.office.on_postgres import cluster, programs
from tests.office.people import People, made_ready, settle
from tests.office.sender import Sender

_NUMBERS = count(1)


@pytest.fixture(scope="session", autouse=True)
def _the_database_that_was_named() -> None:
    """See that tests which are to run on PostgreSQL do."""
    assert not os.environ.get(DATABASE) or connection.vendor == "postgresql"


@pytest.fixture(scope="session")
def _cluster() -> Iterator[str]:
    found = programs()
    if found is None and "CI" not in os.environ:
        pytest.skip("needs PostgreSQL's programs")
    assert found is not None, "the tests of the journal on PostgreSQL need its programs"
    with cluster(found) as beginning:
        yield beginning


@pytest.fixture
def postgres_url(_cluster: str) -> Iterator[str]:
    """Give the URL of an empty database of the test's own."""
    name = f"office_{next(_NUMBERS)}"
    with psycopg.connect(f"{_cluster}postgres", autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")
    yield f"{_cluster}{name}"
    with psycopg.connect(f"{_cluster}postgres", autocommit=True) as connection:
        connection.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture(autouse=True)
def _quick_passwords(settings: Settings) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


class Moment:
    """The office's clock, which stands where a test puts it."""

    def __init__(self) -> None:
        self.now = datetime(2026, 6, 18, 18, tzinfo=UTC)

    def later(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def moment(monkeypatch: pytest.MonkeyPatch) -> Moment:
    """Let the office's clock stand at one in the afternoon of Thursday 18 June 2026."""
    made = Moment()
    monkeypatch.setattr(clock, "now", lambda: made.now)
    return made


@pytest.fixture
def people(db: None, moment: Moment) -> People:
    """Give Alice who leads, Bob who scouts, Gil who grows, and Charlie who leads elsewhere."""
    return settle()


@pytest.fixture
def bobs(people: People) -> Sender:
    """Give Bob's phone; his two fields have a guideline and dates."""
    made_ready(people.home)
    made_ready(people.east)
    return Sender(people.bob, people.near)
