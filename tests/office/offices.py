"""A small office to which invented journals are sent, and what it then holds."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import Any

from django.contrib.auth import get_user_model
from django.db import models
from django.test import Client

from quarterwalk.office.models import (
    CheckRow,
    Device,
    District,
    EntryState,
    FieldRow,
    JournalEntry,
    Membership,
    QuadrantNoteRow,
    RemarkRow,
    Role,
    WalkRow,
)
from quarterwalk.office.services import phones
from tests.office.deliveries import Post, Sent
from tests.office.ends import Cast, History, Said, waiting

PEOPLE = (
    ("a11ce001", "Alice Marr", Role.LEAD),
    ("b0b00001", "Bob Tarn", Role.SCOUT),
    ("b0b00002", "Bob Tarn", Role.SCOUT),
)
PHONES = (("m00000000001", "b0b00001"), ("c00000000002", "b0b00002"), ("x00000000003", "b0b00001"))
FIELDS = ("f0000001", "f0000002")
SQUARE = '{"type":"Polygon","coordinates":[[[0,0],[0.01,0],[0.01,0.01],[0,0.01],[0,0]]]}'
PROJECTED = (WalkRow, CheckRow, QuadrantNoteRow, RemarkRow)


def cast_of(begins: datetime) -> Cast:
    """Say who writes at such an office, and when they begin."""
    return Cast(PHONES, {public_id: name for public_id, name, _ in PEOPLE}, FIELDS, begins)


@dataclass(frozen=True, slots=True)
class Office:
    """Who writes to it, and each phone's token."""

    cast: Cast
    tokens: dict[str, str]


def open_office(begins: datetime) -> Office:
    """Open an office with three people, three phones and two fields, always of the same ids."""
    district = District.objects.create(public_id="d0000001", name="North", time_zone="UTC")
    people = {}
    for public_id, name, role in PEOPLE:
        people[public_id] = get_user_model().objects.create(
            public_id=public_id, sign_in_name=public_id, name=name
        )
        Membership.objects.create(person=people[public_id], district=district, role=role)
    for public_id in FIELDS:
        FieldRow.objects.create(
            public_id=public_id, district=district, name=public_id, boundary=SQUARE, acres=300
        )
    tokens = {}
    for device_id, owner in PHONES:
        code = phones.make_code(person=people[owner], district=district)
        paired = phones.pair(code=code, label=device_id)
        assert paired is not None
        Device.objects.filter(pk=paired[0].pk).update(device_id=device_id)
        tokens[device_id] = paired[1]
    return Office(cast_of(begins), tokens)


def sent_to(office: Office, posts: Iterable[Post]) -> Receipt:
    """Send posts through the real door and hold every answer to what it must be."""
    receipt = Receipt(office)
    for post in posts:
        receipt.post(post)
    return receipt


class Receipt:
    """What was sent so far, so that every answer is known beforehand."""

    def __init__(self, office: Office) -> None:
        self.office = office
        self.client = Client(HTTP_HOST="localhost")
        self.here: dict[tuple[str, int], Said] = {}
        self.aside: set[tuple[str, str, bytes]] = set()
        self.posts = 0

    def post(self, post: Post) -> None:
        body, extra = post.body, {}
        if post.arrived is not None:
            extra = {"CONTENT_LENGTH": str(len(body)), "wsgi.input": BytesIO(body[: post.arrived])}
        answer = self.client.generic(
            "POST",
            "/sync/entries",
            body,
            "application/x-ndjson",
            headers={"Authorization": f"Bearer {self.office.tokens[post.device]}"},
            **extra,
        )
        self.posts += 1
        if post.arrived is not None:
            assert answer.status_code == 400, f"a torn request was answered {answer.status_code}"
            return
        assert answer.status_code == 200, answer.content
        told = answer.json()
        answers = [_told(line) for line in told["answers"]]
        due = [self._due(post.device, sent) for sent in post.sent]
        same("answers", answers, due)
        assert answers == due, "answers in another order"
        self._see_walks(post, told["walks"])

    def _due(self, device: str, sent: Sent) -> tuple[Any, ...]:
        """Say what must be answered to a line."""
        key = sent.key or (None, None)
        if sent.why == "other-device" and sent.key in self.here:
            return (*key, "already-held", None)  # the same bytes, whoever brings them
        if sent.said is None:
            self.aside.add((device, sent.why, sent.line))
            return (*key, "quarantined", sent.why)
        again = sent.said.key in self.here
        self.here[sent.said.key] = sent.said
        return (*key, "already-held" if again else "held", None)

    def _see_walks(self, post: Post, walks: dict[str, Any]) -> None:
        """Every walk that was touched is told of, with the number of entries still on their way."""
        touched = {sent.said.walk for sent in post.sent if sent.said and sent.said.walk}
        assert touched <= set(walks)
        for walk in touched:
            opened = any(s.walk == walk and s.kind == "walk-opened" for s in self.here.values())
            assert (walks[walk]["state"] == "unopened") is not opened
            assert walks[walk]["waiting"] == waiting(walk, self.here.values())


def _told(line: dict[str, Any]) -> tuple[Any, ...]:
    return line["device"], line["seq"], line["answer"], line.get("why")


def see_entries(receipt: Receipt) -> None:
    """Every true entry is held once, byte for byte; what was set aside is kept, and no more."""
    held = JournalEntry.objects.filter(state=EntryState.HELD)
    same(
        "entries held",
        [((row.key_device, row.key_seq), bytes(row.raw)) for row in held],
        [(key, said.line) for key, said in receipt.here.items()],
    )
    aside = JournalEntry.objects.exclude(state=EntryState.HELD).select_related("device")
    same(
        "lines set aside",
        [(row.device.device_id, row.why, bytes(row.raw)) for row in aside],
        receipt.aside,
    )
    rows = JournalEntry.objects.values_list("raw", "sha256")
    assert all(hashlib.sha256(bytes(raw)).hexdigest() == told for raw, told in rows)


def see_ends(history: History) -> None:
    """The rows tell exactly what must stand."""
    ends = history.ends()
    same("walks", WalkRow.objects.values_list("walk_id", flat=True), ends)
    for row in WalkRow.objects.select_related("field"):
        end = ends[row.walk_id]
        assert row.field is not None
        same(
            f"walk {row.walk_id}",
            [(row.state, row.field.public_id, str(row.on), row.plants, row.doubled, row.waiting)],
            [(end.state, end.field, end.on, end.plants, end.doubled, 0)],
        )
        checks = list(map(_check, row.checks.order_by("position")))
        same(f"plants of {row.walk_id}, {row.state}", checks, end.checks)
        notes = list(map(_note, row.quadrant_notes.order_by("position")))
        same(f"quarters of {row.walk_id}", notes, end.quadrant_notes)
        assert (tuple(checks), tuple(notes)) == (end.checks, end.quadrant_notes), "another order"
    same("remarks", map(_remark, RemarkRow.objects.all()), history.remarks())


def same(what: str, found: Iterable[Any], due: Iterable[Any]) -> None:
    """Hold what was found to what is due, each as often, and name what differs."""
    there, wanted = Counter(list(found)), Counter(list(due))
    assert there == wanted, (
        f"{what}: too much {list((there - wanted).elements())},"
        f" lacking {list((wanted - there).elements())}"
    )


def _check(row: CheckRow) -> tuple[Any, ...]:
    return (
        row.device_id, row.seq, str(row.on), row.scout, row.quadrant, row.stop, row.plant,
        row.adults, row.nymphs, row.healthy, row.missing, row.blasted, row.flared, row.sweeps,
        row.skipped, row.why, row.note,
    )  # fmt: skip


def _note(row: QuadrantNoteRow) -> tuple[Any, ...]:
    branches = tuple(int(n) for n in row.branches.replace(",", " ").split())
    return row.quadrant, row.lost, row.water, row.other_pests, branches, row.note


def _remark(row: RemarkRow) -> tuple[Any, ...]:
    return (
        row.device_id, row.seq, row.walk_id, row.what, row.quadrant, row.stop, row.text, row.by,
    )  # fmt: skip


def dump() -> list[tuple[Any, ...]]:
    """Give every projected row, but for numbers that the database counts up."""
    return [row for model in PROJECTED for row in _rows(model)]


def _rows(model: type[models.Model]) -> list[tuple[Any, ...]]:
    names = [f.attname for f in model._meta.concrete_fields if not isinstance(f, models.AutoField)]
    return [(model.__name__, *row) for row in model._default_manager.values_list(*names)]


def wipe() -> None:
    """Throw all projected rows away, as if nobody had ever projected anything."""
    for model in reversed(PROJECTED):
        model._default_manager.all().delete()
