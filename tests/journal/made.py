"""Entries of one walk, said in few words."""

from __future__ import annotations

import json
from typing import Any

from quarterwalk.journal import (
    Body,
    DeviceCount,
    Entry,
    HandedOver,
    PlantChecked,
    PlantSkipped,
    Source,
    Struck,
    WalkClosed,
    WalkOpened,
)
from quarterwalk.walk import InsectCount, Method, Quadrant, Sites

WENS = "k3f9m2q8t5wz"
JOSSES = "c7x4b9v2n6ps"
WEN = "p7c2n4hd"
JOSS = "q4m8x2ry"
FIELD = "h4m7e0fd"
WALK = f"{WENS}-1"
NAMES = {WEN: "Wen Adair", JOSS: "Joss Pell"}
MORNING = "2026-06-18T08:00:00.000-05:00"


def entry(
    seq: int,
    body: Body,
    *,
    device: str = WENS,
    at: str = MORNING,
    walk: str | None = WALK,
    by: str | None = None,
) -> Entry:
    return Entry(device, seq, at, 0, by or (WEN if device == WENS else JOSS), walk, body)


def opened(method: Method = Method.TERMINAL, **said: Any) -> Entry:
    body = WalkOpened(field=FIELD, method=method, sites=Sites.ALL, source=Source.PHONE, **said)
    return entry(1, body)


def plant(number: int, **said: Any) -> PlantChecked:
    said.setdefault("insects", InsectCount(0, 0))
    return PlantChecked(quadrant=Quadrant.NW, stop=1, plant=number, **said)


def skipped(number: int) -> PlantSkipped:
    return PlantSkipped(quadrant=Quadrant.NW, stop=1, plant=number)


def struck(seq: int) -> Struck:
    return Struck(seq)


def handed(to: str, entries: int) -> HandedOver:
    return HandedOver(to, entries)


def closed(**entries: int) -> WalkClosed:
    return WalkClosed(tuple(DeviceCount(device, n) for device, n in entries.items()))


def content(**changed: Any) -> dict[str, Any]:
    """Give a plant check as JSON holds it, with some keys changed."""
    whole = {
        "v": 1,
        "device": WENS,
        "seq": 2,
        "at": MORNING,
        "tick": 183250,
        "by": WEN,
        "walk": WALK,
        "kind": "plant-checked",
        "body": {"quadrant": "NW", "stop": 1, "plant": 1, "insects": {"adults": 0, "nymphs": 1}},
    }
    return {key: value for key, value in {**whole, **changed}.items() if value is not None}


def line(**changed: Any) -> bytes:
    return json.dumps(content(**changed)).encode()
