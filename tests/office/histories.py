"""Invented journals of one or two phones: walks with slips, undo, handing over and closing.

Nothing of the code under test is used: entries are written as plain JSON.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from typing import Any

from tests.office.ends import Cast, History, Said, write_line

QUADRANTS = ("NW", "NE", "SW", "SE")
SIGHTS = ("host-weeds", "other-pest", "natural-enemies", "standing-water", "spray-sign")
ZONES = (("-05:00", -300), ("-06:00", -360), ("Z", 0), ("+05:30", 330))
PLACE = ("quadrant", "stop", "plant")
WORDS = ("wet ground", "Läuse, ñandú", 'says "later"', "two\nlines", "𝄞 tune", "a \\ b")


@dataclass(slots=True)
class Phone:
    """A phone that numbers its entries; its clock may be off."""

    device: str
    owner: str
    zone: tuple[str, int]
    off: timedelta
    seq: int = 0
    opened: datetime | None = None

    def time(self, now: datetime) -> str:
        wall = (now + self.off).astimezone(timezone(timedelta(minutes=self.zone[1])))
        return wall.isoformat(timespec="milliseconds")[:23] + self.zone[0]

    def tick(self, now: datetime) -> int:
        self.opened = self.opened or now
        return (now - self.opened) // timedelta(milliseconds=1)


def make_history(seed: int, cast: Cast, walks: int | None = None) -> History:
    """Invent what was done on the phones of a district; a seed always gives the same."""
    day = _Day(seed, cast)
    return day.lived(walks or day.rng.randint(1, 3))


class _Day:
    """A day in the making: people walk, err, undo, hand over, close and think again."""

    def __init__(self, seed: int, cast: Cast) -> None:
        self.rng = random.Random(seed)
        self.history = History(seed, cast)
        self.now = cast.begins + timedelta(minutes=self.rng.choice([0, 0, 60, 298, 358, 540]))
        chosen = self.rng.sample(cast.phones, self.rng.choice([1, 2, 2, 2]))
        self.phones = [
            Phone(device, owner, self.rng.choice(ZONES), self._clock_error())
            for device, owner in chosen
        ]

    def lived(self, count: int) -> History:
        """Let so many walks begin; up to three go on at once."""
        near = self.history.cast.fields[: self.rng.randint(1, 2)]
        begun: list[Iterator[str]] = []
        while count or begun:
            while count and len(begun) < 3:
                begun.append(self._walk(self.rng.choice(near)))
                count -= 1
            walk = self.rng.choice(begun)
            if next(walk, "done") == "done":
                begun.remove(walk)
            if self.rng.random() < 0.03:
                self._outside()
        return self.history

    def _clock_error(self) -> timedelta:
        return timedelta(seconds=self.rng.choice([0, 0, 3, -40, 3600, -7200]))

    def say(
        self, phone: Phone, kind: str, body: dict[str, Any], *, walk: str | None, by: str
    ) -> Said:
        self.now += timedelta(milliseconds=self.rng.randint(900, 90_000))
        phone.seq += 1
        whole: dict[str, Any] = {"v": 1, "device": phone.device, "seq": phone.seq,
                                 "at": phone.time(self.now), "tick": phone.tick(self.now),
                                 "by": by}  # fmt: skip
        if kind == "walk-opened":
            walk = f"{phone.device}-{phone.seq}"
        if walk is not None:
            whole["walk"] = walk
        line = write_line(**whole, kind=kind, body=body)
        said = Said(phone.device, phone.seq, whole["at"], by, walk, kind, body, line)
        self.history.said.append(said)
        if kind == "struck":
            self.history.strikes.setdefault((phone.device, body["seq"]), []).append(said)
        if walk is not None and kind != "struck":
            self.history.given.pop(walk, None)
            if kind == "handed-over":
                self.history.given[walk] = said
        return said

    def _outside(self) -> None:
        """Something seen or noted at a field outside any walk."""
        phone, where = self.rng.choice(self.phones), self.rng.choice(self.history.cast.fields)
        if self.rng.random() < 0.5:
            body = {"what": self.rng.choice(SIGHTS), "field": where, "note": "from the road"}
            self.say(phone, "sighted", body, walk=None, by=phone.owner)
        else:
            text = self.rng.choice(WORDS)
            self.say(phone, "note", {"text": text, "field": where}, walk=None, by=phone.owner)

    def _walk(self, where: str) -> Iterator[str]:
        """Walk a field entry by entry; other walks go on between."""
        walker = _Walker(self, self.rng.choice(self.phones), where)
        yield "opened"
        for part in range(self.rng.choice([1, 1, 2, 2, 3])):
            if part:
                yield from walker.hand_over()
                if walker.given:
                    return
            for _ in range(self.rng.choice([0, 3, 8, 14])):
                walker.step()
                yield "stepped"
        yield from walker.finish()


class _Walker:
    """Whoever has a walk in hand."""

    def __init__(self, day: _Day, phone: Phone, where: str) -> None:
        self.day, self.rng, self.phone, self.by = day, day.rng, phone, phone.owner
        self.method = self.rng.choice(["terminal", "terminal", "whole-plant", "sweep"])
        body: dict[str, Any] = {"field": where, "method": self.method, "source": "phone",
                                "sites": self.rng.choice(["all", "top3"])}  # fmt: skip
        if self.rng.random() < 0.5:
            body["gate"] = {"sign": False, "called": self.rng.random() < 0.5}
        self.opening = day.say(phone, "walk-opened", body, walk=None, by=self.by)
        self.walk = self.opening.walk
        self.plant = 0
        self.kept: set[tuple[str, int]] = set()
        """What is never struck: the first word of whoever went on, and handings over."""
        self.given = False
        self.fresh = False

    def say(self, kind: str, body: dict[str, Any]) -> Said:
        said = self.day.say(self.phone, kind, body, walk=self.walk, by=self.by)
        if self.fresh and kind != "struck":
            self.kept.add(said.key)
            self.fresh = False
        return said

    def mine(self, *kinds: str) -> list[Said]:
        """Give what this phone wrote of the walk and may still be struck."""
        return [
            said
            for said in self.day.history.said
            if said.walk == self.walk
            and said.device == self.phone.device
            and said.kind in kinds
            and said.key not in self.kept
        ]

    def step(self) -> None:
        self.rng.choices(
            [self.check, self.skip, self.undo, self.undo_undo, self.strike_any,
             self.note_quadrant, self.sight, self.note, self.check_again],
            [60, 8, 12, 6, 5, 5, 5, 4, 4],
        )[0]()  # fmt: skip

    def place(self) -> dict[str, Any]:
        self.plant += 1
        stop = {} if self.rng.random() < 0.1 else {"stop": (self.plant - 1) // 5 + 1}
        return {"quadrant": QUADRANTS[(self.plant - 1) // 5 % 4], **stop, "plant": self.plant}

    def check(self) -> None:
        self.say("plant-checked", {**self.place(), **self.counts()})

    def counts(self) -> dict[str, Any]:
        few, rng = [0, 0, 0, 1, 2, 99], self.rng
        found: dict[str, Any] = {}
        if rng.random() < 0.9:
            found["insects"] = {"adults": rng.choice(few), "nymphs": rng.choice(few)}
            if self.method == "sweep":
                found["sweeps"] = rng.choice([10, 25, 100])
        if rng.random() < 0.5:
            names = ("healthy", "missing", "blasted", "flared")
            found["squares"] = {name: rng.choice(few) for name in names}
        if rng.random() < 0.05:
            found["note"] = rng.choice(WORDS)
        return found

    def skip(self) -> None:
        why = self.rng.choice([{}, *({"why": w} for w in ("hailed", "cut-off", "no-plant"))])
        self.say("plant-skipped", {**self.place(), **why})

    def check_again(self) -> None:
        """The same plant a second time: a slip of the finger."""
        before = self.mine("plant-checked", "plant-skipped")
        if before:
            self.count_again(self.rng.choice(before))

    def count_again(self, before: Said) -> None:
        same = {key: before.body[key] for key in PLACE if key in before.body}
        self.say("plant-checked", {**same, **self.counts()})

    def undo(self) -> None:
        """Take back the last plant that stands, then count it again or not."""
        standing = [s for s in self.mine("plant-checked", "plant-skipped") if self.stands(s)]
        if standing:
            self.say("struck", {"seq": standing[-1].seq})
            if self.rng.random() < 0.6:
                self.count_again(standing[-1])

    def undo_undo(self) -> None:
        self._strike(self.mine("struck")[-2:])

    def strike_any(self) -> None:
        """Strike anything of this walk, even what is struck already."""
        kinds = ("plant-checked", "plant-skipped", "struck", "quadrant-noted", "sighted", "note")
        self._strike(self.mine(*kinds))

    def _strike(self, among: list[Said]) -> None:
        if among:
            self.say("struck", {"seq": self.rng.choice(among).seq})

    def stands(self, said: Said) -> bool:
        return self.day.history.stands(said)

    def note_quadrant(self) -> None:
        rng, body = self.rng, {"quadrant": self.rng.choice(QUADRANTS)}
        said = {"lost": rng.choice(["none", "small", "large", "both"]), "water": rng.random() < 0.5,
                "other_pests": rng.choice(["none", "some", "many"]), "note": rng.choice(WORDS),
                "branches": [rng.randint(0, 30) for _ in range(rng.randint(1, 5))]}  # fmt: skip
        some = {key: value for key, value in said.items() if rng.random() < 0.6}
        self.say("quadrant-noted", {**body, **some})

    def sight(self) -> None:
        stop = {"stop": 3, "quadrant": "SW"} if self.rng.random() < 0.5 else {}
        note = {"note": self.rng.choice(WORDS)} if self.rng.random() < 0.5 else {}
        self.say("sighted", {"what": self.rng.choice(SIGHTS), **stop, **note})

    def note(self) -> None:
        self.say("note", {"text": self.rng.choice(WORDS)})

    def written(self, device: str) -> int:
        said = self.day.history.said
        return sum(s.walk == self.walk and s.device == device for s in said)

    def hand_over(self) -> Iterator[str]:
        """Give the walk to another person: on this phone, on another, or to nobody in the end."""
        people = [person for person in self.day.history.cast.scouts if person != self.by]
        to = self.rng.choice(people)
        giving = {"to": to, "entries": self.written(self.phone.device) + 1}
        handed = self.say("handed-over", giving)
        yield "handed"
        if self.rng.random() < 0.15:  # thought better of it at once, and goes on
            self.say("struck", {"seq": handed.seq})
            self.fresh = True
            self.check()
            return
        self.kept.add(handed.key)
        if self.rng.random() < 0.3:  # a count mended afterwards is no going on
            self._strike(self.mine("plant-checked", "plant-skipped"))
        if self.rng.random() < 0.2:
            self.given = True
            return
        last = self.mine("plant-checked", "plant-skipped")[-1:]
        others = [phone for phone in self.day.phones if phone is not self.phone]
        if others and self.rng.random() < 0.8:
            self.phone = others[0]
            to = self.rng.choice([to, self.phone.owner, self.by])  # also to one's own other phone
        self.by, self.fresh = to, True
        if last and self.rng.random() < 0.4:  # nobody knows whether this one was done
            self.count_again(last[0])
        else:
            self.check()
        yield "taken"

    def finish(self) -> Iterator[str]:
        """Close, or leave it open; some think again, some strike the whole walk."""
        if self.rng.random() < 0.25:
            return
        yield from self.close()
        if self.rng.random() < 0.25:
            self._strike(self.mine("walk-closed")[-1:])
            yield "reopened"
            for _ in range(self.rng.randint(0, 3)):
                self.step()
            if self.rng.random() < 0.6:
                yield from self.close()
        if self.rng.random() < 0.2:
            self.note()
        if self.rng.random() < 0.08 and self.opening.device == self.phone.device:
            self._strike([self.opening])

    def close(self) -> Iterator[str]:
        """Close with what this phone knows: all its own entries, of the other's perhaps fewer."""
        counts = {p.device: self.written(p.device) for p in self.day.phones}
        known = {
            d: n if self.rng.random() < 0.6 else self.rng.randint(0, n) for d, n in counts.items()
        }
        known[self.phone.device] = counts[self.phone.device] + 1
        body: dict[str, Any] = {"entries": {d: n for d, n in known.items() if n}}
        if self.rng.random() < 0.6:
            body["standing"] = {"plants": 40, "insects": 7, "squares": 90, "healthy": 81}
        self.say("walk-closed", body)
        yield "closed"
