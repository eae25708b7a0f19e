"""An address with a NUL in it is not found, whatever database holds the office."""

from __future__ import annotations

import pytest
from django.test import Client

from tests.office.people import People


@pytest.mark.parametrize(
    "address",
    [
        "/fields/%00",
        "/walks/a%00-1",
        "/walks/%00.csv",
        "/?x=%00",
        "/sync/cards/%00",
        "/sync/walks?id=%00",
    ],
)
def test_an_address_with_a_nul_is_not_found(people: People, address: str) -> None:
    client = Client()
    client.force_login(people.alice)
    assert client.get(address).status_code == 404
