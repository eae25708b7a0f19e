"""What must hold of every journal, whatever was tapped and whatever came over the air."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone
from functools import cache
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, validators

from quarterwalk.journal import (
    ALPHABET,
    Abundance,
    DeviceCount,
    Entry,
    EntryFault,
    Gate,
    HandedOver,
    Lean,
    LostSquares,
    Note,
    PlantChecked,
    PlantSkipped,
    QuadrantNoted,
    Sight,
    Sighted,
    Source,
    Standing,
    Struck,
    WalkClosed,
    WalkOpened,
    WalkState,
    WhySkipped,
    read_entry,
    replay,
    split_lines,
    time_text,
    to_walk,
    write_entry,
)
from quarterwalk.journal.form import misfit
from quarterwalk.walk import InsectCount, Method, Quadrant, Sites, SquareCount
from tests.contracts.source import PACKAGE

DEVICES = ("k3f9m2q8t5wz", "c7x4b9v2n6ps", "zzzzzzzzzzzz")
PEOPLE = ("p7c2n4hd", "q4m8x2ry")
WALKS = (f"{DEVICES[0]}-1", f"{DEVICES[1]}-3")
NAMES = {PEOPLE[0]: "Wen Adair", PEOPLE[1]: "Wen Adair"}
BAD = "".join(map(chr, (*range(32), *range(127, 160), 0x2028, 0x2029, 0xFFFE, 0xFFFF)))
LETTERS = st.characters(exclude_characters=BAD, exclude_categories=["Cs"])
START, END = datetime(1900, 1, 1, 15, tzinfo=UTC), datetime(2199, 12, 31, 8, tzinfo=UTC)


def texts(most: int) -> st.SearchStrategy[str]:
    return st.sampled_from(["wet", "Río \U0001f33f", " a ", "x" * most])


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


count = st.integers(0, 99)
few = st.integers(1, 3)
quadrant = st.sampled_from(Quadrant)
day = st.dates(date(1900, 1, 1), date(2199, 12, 31))
scout = st.sampled_from(["Wen Adair", "Wen Adair 2", *PEOPLE]) | texts(80)
fields = st.text(ALPHABET, min_size=8, max_size=8)
entries = st.integers(1, 30)
place = {"quadrant": quadrant, "stop": maybe(few), "plant": few, "scout": maybe(scout),
         "on": maybe(day), "note": maybe(texts(500))}  # fmt: skip

opened = st.builds(
    WalkOpened,
    field=fields,
    card=maybe(st.text("0123456789abcdef", min_size=64, max_size=64)),
    method=st.sampled_from([Method.SWEEP, *Method]),
    sites=st.sampled_from(Sites),
    source=st.sampled_from(Source),
    gate=maybe(st.builds(Gate, called=st.booleans())),
    label=maybe(texts(80)),
    plan=maybe(texts(128)),
)
checked = st.builds(
    PlantChecked,
    **place,
    insects=maybe(st.builds(InsectCount, count, count)),
    squares=maybe(st.builds(SquareCount, count, count, count, count)),
    sweeps=maybe(st.integers(1, 9999)),
)
skipped = st.builds(PlantSkipped, **place, why=maybe(st.sampled_from(WhySkipped)))
sighted = st.builds(
    Sighted,
    what=st.sampled_from(Sight),
    field=fields,
    quadrant=maybe(quadrant),
    stop=maybe(few),
    note=maybe(texts(500)),
)
quadrant_noted = st.builds(
    QuadrantNoted,
    quadrant=quadrant,
    lost=maybe(st.sampled_from(LostSquares)),
    water=maybe(st.booleans()),
    other_pests=maybe(st.sampled_from(Abundance)),
    branches=maybe(st.lists(st.integers(0, 30), min_size=1, max_size=5).map(tuple)),
    note=maybe(texts(500)),
)
handed = st.builds(HandedOver, to=st.sampled_from(PEOPLE), entries=entries)
standing = st.builds(Standing, *[st.integers(0, 999)] * 4, lean=maybe(st.sampled_from(Lean)))
notes = st.builds(Note, text=texts(2000), field=fields)


def closed(device: str) -> st.SearchStrategy[WalkClosed]:
    others = st.dictionaries(st.sampled_from(DEVICES), entries)
    own = st.builds(lambda told, n: {**told, device: n}, others, entries)
    counts = own.map(lambda told: tuple(DeviceCount(d, n) for d, n in told.items()))
    return st.builds(WalkClosed, counts, maybe(standing), maybe(texts(128)))


@st.composite
def written(draw, device=None, seq=None):
    """One entry of any kind that a device could have written."""
    device = device or draw(st.sampled_from(DEVICES))
    seq = seq or draw(st.integers(1, 30))
    walks = [w for w in WALKS if not w.startswith(device) or int(w.split("-")[1]) < seq]
    if f"{device}-{seq}" in WALKS:
        walk, body = f"{device}-{seq}", draw(opened)
    elif not walks:
        walk, body = None, draw(sighted | notes)
    else:
        walk = draw(st.sampled_from([walks[0], walks[0], *walks]))
        kinds = checked | skipped | checked | sighted | quadrant_noted | handed | notes
        if seq > 1:
            kinds |= st.builds(Struck, st.integers(1, seq - 1))
        body = draw(kinds | closed(device))
    zone = timezone(timedelta(minutes=draw(st.integers(-14 * 60, 14 * 60))))
    at = START + draw(st.timedeltas(timedelta(0), END - START))
    by = draw(st.sampled_from(PEOPLE))
    return Entry(
        device, seq, time_text(at.astimezone(zone)), draw(st.integers(0, 10**9)), by, walk, body
    )


@st.composite
def journals(draw):
    """The entries of some devices, with gaps, of which some may not have arrived."""
    told = []
    for device in DEVICES:
        told += [
            draw(written(device=device, seq=seq))
            for seq in range(1, draw(st.integers(2, 8)))
            if draw(st.sampled_from([True] * 5 + [False]))
        ]
    return told


@given(written())
@settings(max_examples=150, deadline=None)
def test_what_was_written_is_read_as_it_was(entry):
    line = write_entry(entry)
    assert read_entry(line) == entry
    assert write_entry(read_entry(line)) == line
    assert b"\n" not in line
    assert split_lines(line + b"\n" + line) == [line, line]


@given(st.text(LETTERS, min_size=1, max_size=500).filter(str.strip))
@settings(max_examples=100, deadline=None)
def test_any_text_without_control_characters_is_kept_as_it_was(text):
    entry = Entry(DEVICES[0], 2, time_text(START), 0, PEOPLE[0], None, Note(text, "h4m7e0fd"))
    assert read_entry(write_entry(entry)) == entry


@given(journals(), st.randoms(use_true_random=False))
@settings(max_examples=100, deadline=None)
def test_a_walk_does_not_depend_on_the_order_in_which_its_entries_came(told, dice):
    shuffled = [*told, *dice.sample(told, len(told) // 2)]
    dice.shuffle(shuffled)
    for walk in WALKS:
        assert replay(walk, shuffled, NAMES) == replay(walk, told, NAMES)


@given(journals(), st.data())
@settings(max_examples=60, deadline=None)
def test_striking_and_striking_the_strike_changes_nothing(told, data):
    own = [e for e in told if e.walk == WALKS[0]]
    assume(own)
    target = data.draw(st.sampled_from(own))
    last = max(e.seq for e in told)
    strike = replace(target, seq=last + 1, body=Struck(target.seq))
    back = replace(target, seq=last + 2, body=Struck(last + 1))
    before = replay(WALKS[0], told, NAMES)
    after = replay(WALKS[0], [*told, strike, back], NAMES)
    # two more entries are held, so fewer may be waited for
    assert replace(after, waiting=before.waiting) == before
    assert after.waiting <= before.waiting


@given(journals())
@settings(max_examples=100, deadline=None)
def test_whatever_was_tapped_makes_a_walk_or_none(told):
    for walk in WALKS:
        record = replay(walk, told, NAMES)
        made = to_walk(record, "Home 40")
        lives = record.state not in (WalkState.UNOPENED, WalkState.VOID)
        assert (made is not None) == (lives and bool(record.checks))
        if made is not None:
            assert len(made.checks) == len(record.checks)
            assert len({c.who for c in record.checks}) == len(made.scouts)


@given(journals())
@settings(max_examples=100, deadline=None)
def test_every_check_that_was_not_struck_is_told_once(told):
    record = replay(WALKS[0], told, NAMES)
    struck = {(e.device, e.body.seq) for e in told if isinstance(e.body, Struck)}
    sure = {
        e.key
        for e in told
        if e.walk == WALKS[0]
        and isinstance(e.body, PlantChecked | PlantSkipped)
        and (e.device, e.seq) not in struck
    }
    found = [*(check.key for check in record.checks), *record.doubled, *record.unusable]
    assert len(found) == len(set(found))
    assert sure <= set(found)


def taken_or_set_aside(line: bytes) -> None:
    try:
        entry = read_entry(line)
    except EntryFault as fault:
        told = str(fault)
        assert told.isprintable()
    else:
        assert read_entry(write_entry(entry)) == entry


@given(st.binary(max_size=200) | st.text(max_size=200).map(lambda t: t.encode("utf-8", "replace")))
@settings(max_examples=150, deadline=None)
def test_any_bytes_are_taken_or_set_aside(line):
    taken_or_set_aside(line)


@given(written(), st.data())
@settings(max_examples=150, deadline=None)
def test_an_entry_with_some_bytes_changed_is_taken_or_set_aside(entry, data):
    line = bytearray(write_entry(entry))
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(line) - 1))
        scrap = st.binary(max_size=3) | st.sampled_from(
            [b"", b'"', b"1e9", b"-0", b"1.5", b"true", b"null", b"NaN", b"9" * 400, b"{", b"["]
        )
        line[at : at + data.draw(st.integers(0, 3))] = data.draw(scrap)
        assume(line)
    taken_or_set_aside(bytes(line))


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=6,
)


@st.composite
def disturbed(draw):
    """An entry's JSON in which some value was put in, swapped or left out."""
    content = json.loads(write_entry(draw(written())))
    part = draw(st.sampled_from([content, content["body"]]))
    for _ in range(draw(st.integers(0, 2))):
        key = draw(st.sampled_from([*part, "note", "walk", "field"]) | st.text(max_size=5))
        if draw(st.booleans()):
            part[key] = draw(anything)
        else:
            part.pop(key, None)
    return content


@cache
def whole_form() -> Any:
    whole = Draft202012Validator.TYPE_CHECKER.redefine("integer", lambda _, n: type(n) is int)
    schema = json.loads((PACKAGE / "journal" / "schema.json").read_text(encoding="utf-8"))
    return validators.extend(Draft202012Validator, type_checker=whole)(schema)


@given(disturbed())
@settings(max_examples=150, deadline=None)
def test_the_quick_check_of_a_kind_agrees_with_the_published_form(content):
    assert (misfit(content) is None) == whole_form().is_valid(content)


@given(disturbed())
@settings(max_examples=100, deadline=None)
def test_an_entry_with_some_value_changed_is_taken_or_set_aside(content):
    taken_or_set_aside(json.dumps(content).encode())
