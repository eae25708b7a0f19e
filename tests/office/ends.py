"""What must stand of the journals of a district in the end, told in the simplest words.

Nothing of the code under test is used. An entry stands unless a strike of it stands; what
stands counts; of one plant counted twice by one scout, the first counts.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any


@dataclass(frozen=True, slots=True)
class Cast:
    """Who writes: phones with their owners, the scouts' names, and the fields they walk."""

    phones: tuple[tuple[str, str], ...]
    scouts: Mapping[str, str]
    fields: tuple[str, ...]
    begins: datetime


@dataclass(frozen=True, slots=True)
class Said:
    """One entry as a phone wrote it."""

    device: str
    seq: int
    at: str
    by: str
    walk: str | None
    kind: str
    body: Mapping[str, Any]
    line: bytes

    @property
    def key(self) -> tuple[str, int]:
        return self.device, self.seq


@dataclass(frozen=True, slots=True)
class WalkEnd:
    """What must stand of one walk once all has come."""

    state: str
    field: str
    on: str
    checks: tuple[tuple[Any, ...], ...]
    plants: int
    doubled: int
    quadrant_notes: tuple[tuple[Any, ...], ...]


@dataclass(slots=True)
class History:
    """All that was written, in the order of writing."""

    seed: int
    cast: Cast
    said: list[Said] = field(default_factory=list)
    given: dict[str, Said] = field(default_factory=dict)
    """By walk, the handing over after which nobody went on."""
    strikes: dict[tuple[str, int], list[Said]] = field(default_factory=dict)
    """By key, what strikes that entry."""

    def journal(self, device: str) -> list[Said]:
        return [said for said in self.said if said.device == device]

    @property
    def devices(self) -> list[str]:
        return list(dict.fromkeys(said.device for said in self.said))

    @property
    def walks(self) -> list[str]:
        return [s.walk for s in self.said if s.kind == "walk-opened" and s.walk]

    def ends(self) -> dict[str, WalkEnd]:
        return {walk: self._end(walk) for walk in self.walks}

    def remarks(self) -> set[tuple[Any, ...]]:
        """Give what was seen or noted, on walks and outside: device, number, walk and words."""
        return {
            (s.device, s.seq, s.walk, s.body.get("what", "note"), s.body.get("quadrant", ""),
             s.body.get("stop"), s.body.get("note", s.body.get("text", "")),
             self.cast.scouts[s.by])
            for s in self.said
            if s.kind in ("sighted", "note") and self.stands(s)
        }  # fmt: skip

    def stands(self, said: Said) -> bool:
        return not any(self.stands(strike) for strike in self.strikes.get(said.key, ()))

    def _end(self, walk: str) -> WalkEnd:
        opener = walk.split("-")[0]
        mine = [s for s in self.said if s.walk == walk]
        opening = next(s for s in mine if s.kind == "walk-opened")
        in_order = sorted(mine, key=lambda s: (s.device != opener, s.device, s.seq))
        live = [s for s in in_order if self.stands(s)]
        checks: dict[tuple[Any, ...], Said] = {}
        doubled = 0
        for said in live:
            if said.kind in ("plant-checked", "plant-skipped"):
                place = (said.by, said.body["quadrant"], said.body.get("stop"), said.body["plant"])
                doubled += place in checks
                checks.setdefault(place, said)
        notes = [s for s in live if s.kind == "quadrant-noted"]
        return WalkEnd(
            state=self._state(walk, opening, live),
            field=opening.body["field"],
            on=max([s.at[:10] for s in checks.values()], default=opening.at[:10]),
            checks=self._checks(list(checks.values())),
            plants=sum(said.kind == "plant-checked" for said in checks.values()),
            doubled=doubled,
            quadrant_notes=tuple(map(_quadrant_note, notes)),
        )

    def _state(self, walk: str, opening: Said, live: list[Said]) -> str:
        if opening not in live:
            return "void"
        if any(said.kind == "walk-closed" for said in live):
            return "closed"
        return "handed-over" if self.given.get(walk) in live else "open"

    def _checks(self, said: list[Said]) -> tuple[tuple[Any, ...], ...]:
        """Tell the plants; the second scout of one name is called by it with a 2."""
        called: dict[str, str] = {}
        for by in dict.fromkeys(s.by for s in said):
            name = self.cast.scouts[by]
            called[by] = f"{name} 2" if name in called.values() else name
        return tuple(self._check(s, called[s.by]) for s in said)

    def _check(self, said: Said, scout: str) -> tuple[Any, ...]:
        body = said.body
        insects, squares = body.get("insects", {}), body.get("squares", {})
        return (
            said.device, said.seq, said.at[:10], scout,
            body["quadrant"], body.get("stop"), body["plant"],
            insects.get("adults"), insects.get("nymphs"),
            *(squares.get(name) for name in ("healthy", "missing", "blasted", "flared")),
            body.get("sweeps"), said.kind == "plant-skipped", body.get("why", ""),
            body.get("note", ""),
        )  # fmt: skip


def waiting(walk: str, here: Iterable[Said]) -> int:
    """Count the entries of a walk that those here tell of, and that are not here."""
    mine = [said for said in here if said.walk == walk]
    told: Counter[str] = Counter()
    for said in mine:
        if said.kind == "walk-closed":
            told |= Counter(said.body["entries"])
        if said.kind == "handed-over":
            told |= Counter({said.device: said.body["entries"]})
    have = Counter(said.device for said in mine)
    return sum(max(0, n - have[device]) for device, n in told.items())


def write_line(**content: Any) -> bytes:
    return json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode()


def _quadrant_note(said: Said) -> tuple[Any, ...]:
    body = said.body
    return (
        body["quadrant"], body.get("lost", ""), body.get("water"), body.get("other_pests", ""),
        tuple(body.get("branches", ())), body.get("note", ""),
    )  # fmt: skip
