"""Whatever bytes a phone sends, every line is answered, and the true ones beside them count."""

from __future__ import annotations

import json
from typing import Any

from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.office.models import EntryState, JournalEntry
from quarterwalk.office.services.journal import decide
from quarterwalk.office.services.projections import rebuild
from quarterwalk.office.services.refused import ServiceRefused
from tests.office.people import People
from tests.office.sender import Sender, answers, line

ODD: st.SearchStrategy[Any] = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(),
    st.sampled_from(["\ud800", "\x00", 10**30, -1, 0, 2**63, [[[]]], {"": {}}, "9" * 400]),
)  # fmt: skip


def places(value: Any) -> list[list[Any]]:
    """Give the way to every value inside a value."""
    found: list[list[Any]] = [[]]
    inside = value.items() if isinstance(value, dict) else []
    for key, held in inside:
        found += [[key, *way] for way in places(held)]
    return found


def put(value: Any, way: list[Any], odd: Any) -> Any:
    if not way:
        return odd
    return {**value, way[0]: put(value[way[0]], way[1:], odd)}


@st.composite
def spoilt(draw: Any, said: list[dict[str, Any]]) -> bytes:
    """Spoil one entry: a value in its place, some bytes, or its end torn off."""
    entry = draw(st.sampled_from(said))
    how = draw(st.sampled_from(["value", "value", "value", "bytes", "torn"]))
    if how == "value":
        return json.dumps(put(entry, draw(st.sampled_from(places(entry))), draw(ODD))).encode()
    raw = bytearray(line(entry))
    place = draw(st.integers(0, len(raw) - 1))
    if how == "torn":
        return bytes(raw[:place])
    raw[place] = draw(st.integers(0, 255).filter(lambda b: b != 10))
    return bytes(raw)


@settings(max_examples=150, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(data=st.data())
def test_no_line_blocks_the_others(bobs: Sender, people: People, data: Any) -> None:
    with transaction.atomic():
        bobs.seq = 0
        said = bobs.walk(people.home, 4)
        said.insert(2, bobs.say("struck", {"seq": 2}, said[0]["walk"]))
        said.insert(3, bobs.say("handed-over", {"to": people.alice.public_id, "entries": 4},
                                said[0]["walk"]))  # fmt: skip
        bad = data.draw(st.lists(spoilt(said), min_size=1, max_size=4))
        told = answers(bobs.send(*said, *bad))
        assert told[: len(said)] == ["held"] * len(said)
        blank = sum(not each.strip(b" \t\r") for each in bad)
        assert len(told) == len(said) + len(bad) - blank
        for entry in JournalEntry.objects.filter(state=EntryState.QUARANTINED):
            take_or_leave(entry, people)
        assert rebuild(check=True).differing == ()
        transaction.set_rollback(True)


def take_or_leave(entry: JournalEntry, people: People) -> None:
    """Let a lead try to take an entry; what can't be taken is left out."""
    try:
        decide(entry=entry, by=people.alice, take_it=True, why="a try")
    except ServiceRefused:
        decide(entry=entry, by=people.alice, take_it=False, why="a try")
