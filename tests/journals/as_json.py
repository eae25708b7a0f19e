"""A walk's record as the golden files hold it, so that other languages can be held to them."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from quarterwalk.journal import CheckRecord, QuadrantNote, WalkRecord


def as_json(record: WalkRecord) -> dict[str, Any]:
    return {
        "id": record.id,
        "state": record.state.value,
        "field": record.field,
        "on": record.on.isoformat() if record.on else None,
        "waiting": record.waiting,
        "checks": [_check(check) for check in record.checks],
        "doubled": [[key.device, key.seq] for key in record.doubled],
        "quadrant_notes": [_quadrant_note(note) for note in record.quadrant_notes],
    }


def _check(check: CheckRecord) -> dict[str, Any]:
    return {
        "device": check.key.device,
        "seq": check.key.seq,
        "quadrant": check.quadrant.value,
        "stop": check.stop,
        "plant": check.plant,
        **{name: getattr(check.insects, name, None) for name in ("adults", "nymphs")},
        **{
            name: getattr(check.squares, name, None)
            for name in ("healthy", "missing", "blasted", "flared")
        },
        "sweeps": check.sweeps,
        "skipped": check.skipped,
        "why": check.why,
        "scout": check.scout,
        "note": check.note,
    }


def _quadrant_note(note: QuadrantNote) -> dict[str, Any]:
    said = {part.name: getattr(note.said, part.name) for part in fields(note.said)}
    if said["branches"] is not None:
        said["branches"] = list(said["branches"])
    return {"device": note.key.device, "seq": note.key.seq, **said}
