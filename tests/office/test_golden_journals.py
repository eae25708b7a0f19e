"""Golden journals, sent through the real door, give the records worked out by hand."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from quarterwalk.office.models import Device, FieldRow, Membership, Person, Role, WalkRow
from tests.contracts.source import ROOT
from tests.office.conftest import Moment
from tests.office.people import People, square
from tests.office.sender import Sender, answers

HERE = ROOT / "tests" / "journals"
JOURNALS = sorted(HERE.glob("*.ndjson"))
NAMES: dict[str, str] = json.loads((HERE / "names.json").read_text(encoding="utf-8"))


def settle_golden(people: People, entries: list[dict[str, Any]]) -> dict[str, Sender]:
    """Let in whoever a journal names, with the ids that it names them by."""
    for public_id, name in NAMES.items():
        person = Person.objects.create(public_id=public_id, sign_in_name=public_id, name=name)
        Membership.objects.create(person=person, district=people.near, role=Role.SCOUT)
    fields = {entry["body"]["field"] for entry in entries if "field" in entry["body"]}
    for place, public_id in enumerate(sorted(fields)):
        FieldRow.objects.create(
            public_id=public_id, district=people.near, name=public_id, acres=77,
            boundary=square(-101 + place / 100),
        )  # fmt: skip
    senders = {}
    for device_id in dict.fromkeys(entry["device"] for entry in entries):
        owner = next(entry["by"] for entry in entries if entry["device"] == device_id)
        sender = Sender(Person.objects.get(public_id=owner), people.near)
        Device.objects.filter(pk=sender.device.pk).update(device_id=device_id)
        senders[device_id] = sender
    return senders


@pytest.mark.parametrize("backwards", [False, True])
@pytest.mark.parametrize("journal", JOURNALS, ids=lambda path: path.stem)
def test_a_golden_journal_gives_its_record(
    people: People, moment: Moment, journal: Path, backwards: bool
) -> None:
    lines = [line for line in journal.read_bytes().split(b"\n") if line]
    entries = [json.loads(line) for line in lines]
    senders = settle_golden(people, entries)
    moment.now += timedelta(days=14)
    pairs = list(zip(entries, lines, strict=True))
    here: set[bytes] = set()
    for entry, line in pairs[::-1] if backwards else pairs:
        told = "already-held" if line in here else "held"
        assert answers(senders[entry["device"]].send(line)) == [told]
        here.add(line)
    expected = json.loads(journal.with_suffix(".expected.json").read_text(encoding="utf-8"))
    assert shown(expected["id"], expected) == expected


def shown(walk_id: str, expected: dict[str, Any]) -> dict[str, Any]:
    """Give a walk's rows in the form of the golden files; which plants doubled, rows only count."""
    row = WalkRow.objects.select_related("field").get(walk_id=walk_id)
    assert row.doubled == len(expected["doubled"])
    return {
        "id": row.walk_id,
        "state": row.state,
        "field": row.field.public_id if row.field else None,
        "on": row.on.isoformat() if row.on else None,
        "waiting": row.waiting,
        "checks": [_check(check) for check in row.checks.order_by("position")],
        "doubled": expected["doubled"],
        "quadrant_notes": [
            {**_note(note), "device": told["device"], "seq": told["seq"]}
            for note, told in zip(
                row.quadrant_notes.order_by("position"), expected["quadrant_notes"], strict=True
            )
        ],
    }


def _check(row: Any) -> dict[str, Any]:
    names = ("quadrant", "stop", "plant", "adults", "nymphs", "healthy", "missing", "blasted",
             "flared", "sweeps", "skipped", "scout")  # fmt: skip
    told = {name: getattr(row, name) for name in names}
    return {**told, "device": row.device_id, "seq": row.seq, "why": row.why or None,
            "note": row.note or None}  # fmt: skip


def _note(row: Any) -> dict[str, Any]:
    return {
        "quadrant": row.quadrant,
        "lost": row.lost or None,
        "water": row.water,
        "other_pests": row.other_pests or None,
        "branches": [int(count) for count in row.branches.split()] or None,
        "note": row.note or None,
    }
