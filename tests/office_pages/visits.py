"""Visits to pages, and what is read off them."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser

from django.contrib.auth import get_user_model
from django.test import Client

from quarterwalk.office.models import Person


def visitor(person: Person | None) -> Client:
    """Open a browser as somebody, or as nobody."""
    assert get_user_model() is Person
    client = Client()
    if person is not None:
        client.force_login(person)
    return client


def words(html: str) -> str:
    """Give the words of a page on one line, without its tags."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


class Tags(HTMLParser):
    """Every start tag of a page with its attributes."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))

    def named(self, *names: str) -> list[dict[str, str | None]]:
        """Give the attributes of all tags of some names."""
        return [attributes for tag, attributes in self.found if tag in names]
