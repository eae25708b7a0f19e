"""A phone that writes entries as plain JSON and sends them through the real door."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime, timedelta, timezone
from typing import Any

from django.http import HttpResponse
from django.test import Client

from quarterwalk.office import clock
from quarterwalk.office.models import Device, District, FieldRow, Person
from tests.office.people import phone

HERE = timezone(timedelta(hours=-5))
Said = dict[str, Any]


class Sender:
    """Somebody's phone: it numbers its entries, and keeps what it was answered last."""

    def __init__(self, person: Person, district: District) -> None:
        self.person = person
        self.device, self.token = phone(person, district)
        self.seq = 0
        self.client = Client()

    def say(self, kind: str, body: Mapping[str, Any], walk: str | None = None, **odd: Any) -> Said:
        """Write the next entry; `odd` takes the place of what would stand there."""
        self.seq += 1
        told: Said = {
            "v": 1,
            "device": self.device.device_id,
            "seq": self.seq,
            "at": wall(clock.now()),
            "tick": self.seq * 1000,
            "by": self.person.public_id,
            "kind": kind,
            "body": dict(body),
        }
        if kind == "walk-opened":
            walk = f"{self.device.device_id}-{self.seq}"
        return {**told, **({} if walk is None else {"walk": walk}), **odd}

    def open(self, field: FieldRow, **odd: Any) -> Said:
        body = {
            "field": field.public_id,
            "method": "terminal",
            "sites": "all",
            "source": "phone",
            "gate": {"sign": False, "called": False},
        }
        return self.say("walk-opened", {**body, **odd})

    def check(self, walk: str, quadrant: str, plant: int, **looked: Any) -> Said:
        insects = {"insects": {"adults": 0, "nymphs": 0}}
        return self.say(
            "plant-checked", {"quadrant": quadrant, "plant": plant, **insects, **looked}, walk
        )

    def close(self, walk: str, count: int) -> Said:
        return self.say("walk-closed", {"entries": {self.device.device_id: count}}, walk)

    def walk(self, field: FieldRow, plants: int = 100) -> list[Said]:
        """Write a whole walk; on every plant of the first ten of a quarter five squares."""
        opened = self.open(field)
        said, walk = [opened], opened["walk"]
        squares = {"squares": {"healthy": 5, "missing": 0, "blasted": 0, "flared": 0}}
        for place in range(plants):
            looked = squares if place // 4 < 10 else {}
            quadrant = ("NW", "NE", "SE", "SW")[place % 4]
            said.append(self.check(walk, quadrant, place // 4 + 1, **looked))
        return [*said, self.close(walk, len(said) + 1)]

    def send(self, *said: Said | bytes, **more: Any) -> HttpResponse:
        return self.post(b"".join(line(one) + b"\n" for one in said), **more)

    def post(self, body: bytes, **more: Any) -> HttpResponse:
        return self.client.generic(
            "POST",
            "/sync/entries",
            body,
            "application/x-ndjson",
            headers=self._headers(),
            **more,
        )

    def get(self, path: str, **asked: Any) -> HttpResponse:
        return self.client.get(f"/sync/{path}", asked, headers=self._headers())

    def _headers(self) -> dict[str, str]:
        return {
            "Authorization": f"Bearer {self.token}",
            "Quarterwalk-Now": wall(clock.now()),
        }

    def stored(self) -> Device:
        return Device.objects.get(pk=self.device.pk)


def line(said: Said | bytes) -> bytes:
    return said if isinstance(said, bytes) else json.dumps(said, ensure_ascii=False).encode()


def wall(moment: datetime) -> str:
    return moment.astimezone(HERE).isoformat(timespec="milliseconds")


def answers(response: HttpResponse) -> list[str]:
    """Give each line's answer, with why where it was set aside."""
    assert response.status_code == 200, response.content
    told = json.loads(response.content)["answers"]
    return [one["answer"] + (f" {one['why']}" if "why" in one else "") for one in told]
