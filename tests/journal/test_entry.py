"""What is taken as an entry, and what is set aside and why."""

from __future__ import annotations

import json
import pickle
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest

from quarterwalk.journal import (
    LARGEST,
    Entry,
    EntryFault,
    FaultCode,
    Key,
    Kind,
    Note,
    PlantChecked,
    WalkClosed,
    read_entry,
    time_text,
    write_entry,
)
from quarterwalk.walk import InsectCount, Quadrant
from tests.journal.made import FIELD, JOSSES, MORNING, WALK, WEN, WENS, entry, line, plant

OWN = Key(WENS, 2)


def fault_of(given: bytes) -> EntryFault:
    with pytest.raises(EntryFault) as caught:
        read_entry(given)
    return caught.value


def body(**said: Any) -> dict[str, Any]:
    return {"quadrant": "NW", "plant": 1, **said}


def test_a_plant_check_is_read_as_it_was_tapped() -> None:
    read = read_entry(line())
    assert read.body == PlantChecked(
        quadrant=Quadrant.NW, stop=1, plant=1, insects=InsectCount(0, 1)
    )
    assert (read.key, read.kind, read.by, read.walk) == (OWN, Kind.PLANT_CHECKED, WEN, WALK)
    assert read.at == datetime(2026, 6, 18, 13, 0, tzinfo=UTC)
    assert read.at_text == MORNING


def test_squares_that_nobody_looked_at_are_not_none_lost() -> None:
    read = read_entry(line(body=body()))
    assert isinstance(read.body, PlantChecked)
    assert read.body.squares is None
    assert read.body.insects is None


NOT_JSON = {
    "nothing": b"",
    "half a line": line()[:70],
    "not UTF-8": line().replace(b"NW", b"\xff\xfe"),
    "a byte order mark": b"\xef\xbb\xbf" + line(),
    "NaN": line().replace(b"183250", b"NaN"),
    "Infinity": line().replace(b"183250", b"-Infinity"),
    "two on one line": line() + line(),
    "a bare line end in a text": line(body=body(note="a b")).replace(b"a b", b"a\nb"),
}


@pytest.mark.parametrize("name", NOT_JSON)
def test_what_is_not_json_is_set_aside_without_a_key(name: str) -> None:
    fault = fault_of(NOT_JSON[name])
    assert (fault.code, fault.key) == (FaultCode.NOT_JSON, None)


WITH_KEY = {
    "a version that nobody wrote": (line(v=2), "v must"),
    "no version": (line(v=None), "v must"),
    "a version that is true": (line(v=True), "v must"),
    "an unknown key": (line(mood="good"), "mood is no key"),
    "an unknown key in the body": (line(body=body(weeds=1)), "body.weeds is no key"),
    "null": (line().replace(b"183250", b"null"), "tick must"),
    "no body": (line(body=None), "body is not there"),
    "a kind nobody knows": (line(kind="sprayed"), "kind must be one of"),
    "a point in a count": (line().replace(b'"nymphs": 1', b'"nymphs": 1.0'), "nymphs must"),
    "an exponent": (line().replace(b'"nymphs": 1', b'"nymphs": 1e0'), "nymphs must"),
    "yes for a count": (line().replace(b'"nymphs": 1', b'"nymphs": true'), "nymphs must"),
    "a count in quotes": (line().replace(b'"nymphs": 1', b'"nymphs": "1"'), "nymphs must"),
    "a hundred on a plant": (line().replace(b'"nymphs": 1', b'"nymphs": 100'), "0 to 99"),
    "one under none": (line().replace(b'"nymphs": 1', b'"nymphs": -1'), "0 to 99"),
    "half an insect count": (line(body=body(insects={"adults": 1})), "nymphs is not there"),
    "plant 0": (line(body={"quadrant": "NW", "plant": 0}), "1 to 999999"),
    "a fifth quadrant": (line(body={"quadrant": "N", "plant": 1}), "NW, NE, SW, SE"),
    "a number of 5,000 digits": (line().replace(b"183250", b"9" * 5000), "tick must"),
    "a person with an o": (line(by="poooooo1"), "by must"),
    "a walk without a number": (line(walk=WENS), "walk must"),
    "a walk opened later": (line(walk=f"{WENS}-2"), "earlier"),
    "no walk": (line(walk=None), "walk is not there"),
    "no offset": (line(at="2026-06-18T08:00:00.000"), "at must"),
    "no milliseconds": (line(at="2026-06-18T08:00:00-05:00"), "at must"),
    "the 31st of June": (line(at="2026-06-31T08:00:00.000Z"), "calendar"),
    "a check on the 30th of February": (line(body=body(on="2026-02-30")), "calendar"),
    "a line end after an id": (line(by=WEN + "\n"), "by must"),
    "a blank note": (line(body=body(note=" ")), "not blank"),
    "a note too long": (line(body=body(note="x" * 501)), "500"),
    "half a character": (line(body=body(note="\ud83d")), "control"),
    "a null character": (line(body=body(scout="a\0b")), "control"),
    "a name on two lines": (line(body=body(scout="Wen\nAdair")), "one line"),
    "a key twice": (line().replace(b'"tick"', b'"by": "q4m8x2ry", "tick"'), "by stands twice"),
    "a count twice": (line().replace(b'"nymphs"', b'"adults": 5, "nymphs"'), "adults stands"),
    "a strike of what comes later": (line(kind="struck", body={"seq": 2}), "earlier"),
    "a closing that forgets itself": (
        line(kind="walk-closed", body={"entries": {JOSSES: 3}}),
        "own entries",
    ),
    "a closing of no device": (line(kind="walk-closed", body={"entries": {}}), "devices"),
    "an opening of another walk": (
        line(
            kind="walk-opened",
            body={"field": FIELD, "method": "terminal", "sites": "all", "source": "phone"},
        ),
        f"walk must be {WENS}-2",
    ),
    "a gate with a flag": (
        line(
            kind="walk-opened",
            walk=f"{WENS}-2",
            body={
                "field": FIELD,
                "method": "terminal",
                "sites": "all",
                "source": "phone",
                "gate": {"sign": True, "called": True},
            },
        ),
        "no walk opens",
    ),
    "a note outside a walk, of no field": (
        line(kind="note", walk=None, body={"text": "Hail."}),
        "body.field is not there",
    ),
}


@pytest.mark.parametrize("name", WITH_KEY)
def test_what_does_not_have_the_form_is_set_aside_with_its_key(name: str) -> None:
    given, why = WITH_KEY[name]
    fault = fault_of(given)
    assert (fault.code, fault.key) == (FaultCode.SCHEMA, OWN)
    assert why in fault.why


WITHOUT_KEY = {
    "a list": b"[1, 2]",
    "a number": b"7",
    "no device": line(device=None),
    "a device too short": line(device="k3f9"),
    "entry 0": line(seq=0),
    "a number that is true": line(seq=True),
    "a number with a point": line(seq=2.0),
    "two devices": line().replace(b'"seq"', b'"device": "c7x4b9v2n6ps", "seq"'),
    "very deep brackets": b"[" * 8000 + b"]" * 8000,
    "very deep brackets within": line().replace(b"183250", b"[" * 4000 + b"]" * 4000),
}


@pytest.mark.parametrize("name", WITHOUT_KEY)
def test_an_entry_whose_key_can_not_be_told_is_set_aside_without_one(name: str) -> None:
    fault = fault_of(WITHOUT_KEY[name])
    assert (fault.code, fault.key) == (FaultCode.SCHEMA, None)


def test_an_entry_may_have_16384_bytes_and_not_one_more() -> None:
    whole = line()
    assert read_entry(whole + b" " * (LARGEST - len(whole))).key == OWN
    fault = fault_of(whole + b" " * (LARGEST + 1 - len(whole)))
    assert (fault.code, fault.key) == (FaultCode.TOO_LARGE, OWN)
    assert fault_of(b"x" * (LARGEST + 1)).key is None


def test_what_is_written_is_compact_and_in_the_order_of_the_format() -> None:
    written = write_entry(entry(2, plant(1, note="Río")))
    assert (
        written
        == (
            '{"v":1,"device":"k3f9m2q8t5wz","seq":2,"at":"2026-06-18T08:00:00.000-05:00","tick":0,'
            '"by":"p7c2n4hd","walk":"k3f9m2q8t5wz-1","kind":"plant-checked","body":{"quadrant":"NW",'
            '"stop":1,"plant":1,"insects":{"adults":0,"nymphs":0},"note":"Río"}}'
        ).encode()
    )


def test_the_devices_of_a_closing_may_stand_in_any_order() -> None:
    counts = [f'"{WENS}": 3', f'"{JOSSES}": 2']
    one, other = (
        line(kind="walk-closed", body={}).replace(
            b"{}", ('{"entries": {' + ", ".join(given) + "}}").encode()
        )
        for given in (counts, counts[::-1])
    )
    assert read_entry(one) == read_entry(other)


def test_the_day_of_a_table_is_written_and_read() -> None:
    told = entry(2, plant(1, scout="Wen", on=date(2026, 6, 17)))
    assert json.loads(write_entry(told))["body"]["on"] == "2026-06-17"
    assert read_entry(write_entry(told)) == told


@pytest.mark.parametrize(
    "impossible",
    [
        entry(0, plant(1)),
        entry(2, plant(0)),
        entry(2, Note("")),
        entry(2, WalkClosed(())),
        entry(2, plant(1, scout="\ud800")),
        Entry(WENS, 2, "yesterday", 0, WEN, WALK, plant(1)),
    ],
    ids=lambda given: f"{given.seq} {given.kind} {given.at_text}",
)
def test_what_no_device_could_have_written_is_not_written(impossible: Entry) -> None:
    with pytest.raises(EntryFault) as caught:
        write_entry(impossible)
    assert caught.value.code is FaultCode.SCHEMA


def test_the_longest_note_is_not_too_large() -> None:
    told = entry(2, Note("\U0001f33f" * 2000))
    assert 8000 < len(write_entry(told)) < LARGEST
    assert read_entry(write_entry(told)) == told


def test_a_time_is_written_with_milliseconds_and_its_offset() -> None:
    texas = timezone(timedelta(hours=-5))
    assert time_text(datetime(2026, 6, 18, 9, 41, 7, 250_999, texas)) == (
        "2026-06-18T09:41:07.250-05:00"
    )


def test_a_fault_names_its_entry_and_passes_between_processes() -> None:
    fault = fault_of(line(mood="good"))
    assert str(fault) == "entry 2 of k3f9m2q8t5wz: mood is no key of this format."
    again = pickle.loads(pickle.dumps(fault))
    assert (again.code, again.why, again.key) == (fault.code, fault.why, fault.key)
