"""How the entries of a history come to the office: in pieces, twice, late, torn, with rubbish."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from tests.office.ends import History, Said, write_line

STRANGE = "zzzzzzzz"
"""An id that no person and no field of the district has."""


@dataclass(frozen=True, slots=True)
class Sent:
    """One line on its way: a true entry, or what must be set aside, and for which reason."""

    line: bytes
    key: tuple[str, int] | None
    why: str = ""
    said: Said | None = None


@dataclass(frozen=True, slots=True)
class Post:
    """One request of a phone; of a torn one only the first bytes arrive, though more was said."""

    device: str
    sent: tuple[Sent, ...]
    arrived: int | None = None

    @property
    def body(self) -> bytes:
        return b"".join(sent.line + b"\n" for sent in self.sent)


def deliver(history: History) -> list[Post]:
    """Plan how a history comes in; a seed always gives the same plan, and all comes in the end."""
    return _Road(history).posts()


def once_in_order(history: History) -> list[Post]:
    """Plan the plainest way: each phone's journal whole, once, the first phone first."""
    return [Post(d, tuple(map(_true, history.journal(d)))) for d in history.devices]


def _true(said: Said) -> Sent:
    return Sent(said.line, said.key, said=said)


class _Road:
    """The way between phones and office on a bad day."""

    def __init__(self, history: History) -> None:
        self.history = history
        self.rng = random.Random(history.seed + 1_000_003)

    def posts(self) -> list[Post]:
        batches = self._in_some_order(self._batches())
        posts = [post for batch in batches for post in self._sent(batch)]
        if self.rng.random() < 0.4:
            posts += once_in_order(self.history)
        if self.rng.random() < 0.6:
            posts = self._with_forgeries(posts)
        if self.rng.random() < 0.5:
            posts = [self._with_rubbish(post) for post in posts]
        return [post for p in posts for post in ([*self._torn(p), p] if self._now(0.12) else [p])]

    def _now(self, chance: float) -> bool:
        return self.rng.random() < chance

    def _batches(self) -> list[list[Post]]:
        """Cut each phone's journal into batches of any size, by phone."""
        phones = []
        for device in self.history.devices:
            left = [_true(said) for said in self.history.journal(device)]
            most = self.rng.choice([2, 6, 20, 200])
            batches = []
            while left:
                size = self.rng.randint(1, most)
                batches.append(Post(device, tuple(left[:size])))
                left = left[size:]
            phones.append(batches)
        return phones

    def _in_some_order(self, phones: Sequence[list[Post]]) -> list[Post]:
        every = [post for batches in phones for post in batches]
        way = self.rng.choice(["in order", "other phone first", "shuffled", "backwards", "mixed"])
        if way == "in order":
            return every
        if way == "other phone first":
            return [post for batches in reversed(phones) for post in batches]
        if way == "backwards":
            return every[::-1]
        if way == "shuffled":
            return self.rng.sample(every, len(every))
        # each phone keeps its own order, the phones go by turns
        turns = self.rng.sample([post.device for post in every], len(every))
        queues = {batches[0].device: iter(batches) for batches in phones}
        return [next(queues[device]) for device in turns]

    def _sent(self, batch: Post) -> list[Post]:
        """Send one batch: as it is, twice, first a part of it, or turned about."""
        some = batch.sent[: self.rng.randint(0, len(batch.sent))]
        turned = tuple(self.rng.sample(batch.sent, len(batch.sent)))
        again = tuple(self.rng.choices(batch.sent, k=2 * len(batch.sent)))
        return self.rng.choices(
            [
                [batch],
                [batch, batch],  # the answer was lost
                [replace(batch, sent=some), batch],  # the first k lines came
                [replace(batch, sent=turned)],
                [replace(batch, sent=(*again, *batch.sent))],
            ],
            [50, 15, 15, 12, 8],
        )[0]

    def _torn(self, post: Post) -> list[Post]:
        """Tear a request in the middle of a line or at its end; the phone will try again."""
        return [replace(post, arrived=self.rng.randint(0, len(post.body) - 1))] if post.sent else []

    def _with_forgeries(self, posts: list[Post]) -> list[Post]:
        """Slip in other bytes under keys that were sent before."""
        made, before = [], list[Said]()
        for post in posts:
            sent = []
            for line in post.sent:
                sent.append(line)
                before += [line.said] if line.said and line.said.device == post.device else []
                own = [said for said in before if said.device == post.device]
                if own and self._now(0.05):
                    sent.append(_forged(self.rng.choice(own), self.rng))
            made.append(replace(post, sent=tuple(sent)))
        return made

    def _with_rubbish(self, post: Post) -> Post:
        sent = list(post.sent)
        while self._now(0.4):
            sent.insert(self.rng.randint(0, len(sent)), self._rubbish(post.device))
        return replace(post, sent=tuple(sent))

    def _rubbish(self, device: str) -> Sent:
        made = self.rng.choice(RUBBISH)(self.history, device, self.rng)
        return made or Sent(b"nonsense", None, "not-json")


def _forged(said: Said, rng: random.Random) -> Sent:
    """Give other bytes under a true key: another tale, or only another spacing."""
    content = json.loads(said.line)
    content["tick"] += rng.choice([0, 1, 7000])
    line = json.dumps(content, ensure_ascii=False, separators=(",", ": ")).encode()
    return Sent(line, said.key, "other-bytes")


def _note(history: History, device: str, rng: random.Random, **changed: object) -> Sent:
    """Give a note outside a walk under a number that the phone has never come to."""
    seq = rng.randint(10_000, 99_999)
    true = next(said for said in history.said if said.device == device)
    content = {"v": 1, "device": device, "seq": seq, "at": true.at, "tick": 0, "by": true.by,
               "kind": "note",
               "body": {"text": "dry", "field": history.cast.fields[0]}}  # fmt: skip
    return Sent(write_line(**{**content, **changed}), (device, seq))


def _other_field(history: History, device: str, rng: random.Random) -> Sent:
    body = {"text": "dry", "field": STRANGE}
    return replace(_note(history, device, rng, body=body), why="unknown-field")


def _other_person(history: History, device: str, rng: random.Random) -> Sent:
    return replace(_note(history, device, rng, by=STRANGE), why="unknown-person")


def _other_day(history: History, device: str, rng: random.Random) -> Sent:
    off = history.cast.begins + timedelta(days=rng.choice([-70, -65, 4, 400]))
    return replace(_note(history, device, rng, at=_written(off)), why="clock")


def _written(at: datetime) -> str:
    return at.isoformat(timespec="milliseconds")


def _misfit(history: History, device: str, rng: random.Random) -> Sent:
    kind, body = rng.choice([
        ("plant-checked", {"quadrant": "NW", "plant": 0}),
        ("plant-checked", {"quadrant": "NW", "plant": 1, "insects": {"adults": 100, "nymphs": 0}}),
        ("plant-checked", {"quadrant": "N", "plant": 1}),
        ("note", {"text": ""}),
        ("note", {"text": "x", "field": history.cast.fields[0], "more": 1}),
        ("thought", {}),
    ])  # fmt: skip
    return replace(_note(history, device, rng, kind=kind, body=body), why="schema")


def _large(history: History, device: str, rng: random.Random) -> Sent:
    body = {"text": "x" * 20_000, "field": history.cast.fields[0]}
    return replace(_note(history, device, rng, body=body), why="too-large")


def _of_the_other_phone(history: History, device: str, rng: random.Random) -> Sent | None:
    """A true entry of the other phone, sent with this one's token."""
    others = [said for said in history.said if said.device != device]
    if not others:
        return None
    said = rng.choice(others)
    return Sent(said.line, said.key, "other-device")


def _half(history: History, device: str, rng: random.Random) -> Sent:
    """A line cut short, though its end is there: not JSON, and no key that can be read."""
    line = rng.choice(history.journal(device)).line
    return Sent(line[: rng.randint(1, len(line) - 1)], None, "not-json")


def _not_text(history: History, device: str, rng: random.Random) -> Sent:
    return Sent(rng.choice([b"\xff\xfe{}", b"{]", b'{"v":1,', b"\x00"]), None, "not-json")


def _not_an_object(history: History, device: str, rng: random.Random) -> Sent:
    return Sent(rng.choice([b"[]", b"7", b'"text"', b"{}", b"null"]), None, "schema")


RUBBISH: tuple[Callable[[History, str, random.Random], Sent | None], ...] = (
    _other_field, _other_person, _other_day, _misfit, _large, _of_the_other_phone, _half,
    _not_text, _not_an_object,
)  # fmt: skip
