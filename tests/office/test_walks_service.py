"""Walks from tables and from the desk: in by the journal, and out again as they came."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quarterwalk.cli import main
from quarterwalk.errors import RefusedInput
from quarterwalk.files import WalkFile, write_walks
from quarterwalk.journal import read_entry
from quarterwalk.office.models import (
    CallRow,
    CheckRow,
    EntryState,
    FieldRow,
    JournalEntry,
    WalkRow,
)
from quarterwalk.office.services.calls import call_for, call_text, with_checks
from quarterwalk.office.services.projections import rebuild
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.walks import enter_walk, import_walks, strike_walk
from quarterwalk.office.translate import to_walk
from quarterwalk.walk import (
    QUADRANTS,
    InsectCount,
    Method,
    PlantCheck,
    Quadrant,
    Sites,
    SquareCount,
    Walk,
    WalkTable,
)
from tests.files.tables import csv_of, read
from tests.office.people import People, made_ready
from tests.office.sender import Sender, answers

DAY = date(2026, 6, 18)
count = st.integers(0, 4)
scout = st.sampled_from(["", "Wen Adair", "Joss Pell", "Bob Tarn", "Alice Marr"])


def of(*walks: Walk) -> WalkFile:
    """Give walks as a table file holds them."""
    table = WalkTable.from_walks(walks)
    rows = np.arange(2, 2 + len(table.rows.walk))
    return replace(read(csv_of("x,2026-06-18,,NW,1,1,0,0,,,,,")), table=table, file_rows=rows)


def bring(people: People, *walks: Walk) -> Any:
    return import_walks(district=people.near, walks=of(*walks), by=people.alice)


def back(ids: Sequence[str]) -> list[Walk]:
    """Read walks out of the rows again, with the ids that the table gave them."""
    rows = {row.walk_id: row for row in with_checks(ids)}
    found = [(rows[walk_id], to_walk(rows[walk_id])) for walk_id in ids]
    return [replace(walk, id=row.label) for row, walk in found if walk is not None]


def plain(field: str = "Home 80", **more: Any) -> Walk:
    checks = [PlantCheck(q, n, insects=InsectCount(0, 1)) for q in QUADRANTS for n in (1, 2)]
    return Walk(field, DAY, tuple(checks), **more)


@st.composite
def walks(draw: Any) -> Walk:
    """Walks of every method, in parts or not, with and without scouts, stops and squares."""
    method, label = draw(st.sampled_from(Method)), draw(st.sampled_from(["", "w-1", "7"]))
    days = [DAY, date(2026, 6, 17)] if label else [DAY]
    checks: dict[Any, PlantCheck] = {}
    for n in range(draw(st.integers(1, 12))):
        skipped = draw(st.sampled_from([False, False, True]))
        insects = draw(st.none() | st.builds(InsectCount, count, count))
        swept = method is Method.SWEEP and insects is not None
        on = DAY if n == 0 else draw(st.sampled_from(days))
        check = PlantCheck(
            quadrant=draw(st.sampled_from(QUADRANTS)),
            plant=draw(st.integers(1, 9)),
            stop=draw(st.none() | st.integers(1, 4)),
            insects=None if skipped else insects,
            squares=None
            if skipped
            else draw(st.none() | st.builds(SquareCount, count, count, count, count)),
            sweeps=draw(st.integers(1, 50)) if swept and not skipped else None,
            scout=draw(scout),
            on=None if on == DAY else on,
            skipped=skipped,
            note=draw(st.sampled_from(["", "wet", "Läuse, ñandú"])),
        )
        checks.setdefault(check.place, check)
    return Walk(
        field=draw(st.sampled_from(["Home 80", "East 80"])),
        date=DAY,
        checks=tuple(checks.values()),
        id=label,
        method=method,
        sites=draw(st.sampled_from(Sites)),
        plan=draw(st.sampled_from(["", "a" * 64])),
    )


@settings(max_examples=60, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(brought=st.lists(walks(), min_size=1, max_size=3))
def test_what_a_table_brings_is_what_the_office_judges(people: People, brought: list[Walk]) -> None:
    with transaction.atomic():
        done = bring(people, *brought)
        assert back(done.walk_ids) == brought
        assert bring(people, *brought).walk_ids == ()
        assert rebuild(check=True).differing == ()
        transaction.set_rollback(True)


def test_the_offices_call_is_the_commands_call(
    people: People, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made_ready(people.home)
    checks = [
        PlantCheck(
            quadrant, place % 5 + 1, stop=place // 5 + 1,
            insects=InsectCount(place % 3 // 2, place % 7 // 6),
            squares=SquareCount(5, place % 2, place % 3 // 2) if place < 10 else None,
            skipped=place == 24, note="wet" if place == 3 else "",
            scout="Wen Adair" if quadrant in ("NW", "SE") else "",
        )
        for quadrant in QUADRANTS
        for place in range(25)
    ]  # fmt: skip
    walk = Walk("Home 80", DAY, tuple(checks))
    write_walks(WalkTable.from_walks([walk]), tmp_path / "walks.csv")
    words = [str(tmp_path / "walks.csv"), "--guideline", "southern-high-plains", "--first-square"]
    assert main(["call", *words, "2026-06-08", "--json"]) in (None, 0)
    by_command = json.loads(capsys.readouterr().out)["walks"][0]
    [walk_id] = bring(people, walk).walk_ids
    judged = call_for(WalkRow.objects.get(walk_id=walk_id))
    assert judged is not None
    by_office = json.loads(call_text(judged))
    assert by_office.pop("office") == {"provisional": False, "why": []}
    assert by_office.pop("walk") == walk_id
    assert json.dumps(by_office, sort_keys=True) == json.dumps(by_command, sort_keys=True)
    assert CallRow.objects.get().content == call_text(judged)


def test_nobody_is_said_to_have_walked_what_names_no_scout(people: People) -> None:
    [walk_id] = bring(people, plain()).walk_ids
    assert WalkRow.objects.get(walk_id=walk_id).scouts == ""
    assert set(CheckRow.objects.values_list("scout", flat=True)) == {""}
    assert {read_entry(bytes(e.raw)).by for e in JournalEntry.objects.all()} == {
        people.alice.public_id
    }


def test_a_table_twice_is_told_and_not_doubled(people: People) -> None:
    walk = plain(id="w1")
    assert bring(people, walk).here_already == 0
    assert bring(people, walk) == type(bring(people, walk))((), 1)
    other = replace(walk, id="w2")
    assert len(bring(people, walk, other).walk_ids) == 1
    assert WalkRow.objects.count() == 2


def test_a_walk_that_was_struck_may_come_again(people: People) -> None:
    [walk_id] = bring(people, plain()).walk_ids
    row = WalkRow.objects.get(walk_id=walk_id)
    strike_walk(walk=row, by=people.alice)
    row.refresh_from_db()
    assert row.state == "void"
    with pytest.raises(ServiceRefused, match="already"):
        strike_walk(walk=row, by=people.alice)
    assert len(bring(people, plain()).walk_ids) == 1


def test_counts_of_a_plant_passed_over_do_not_make_a_walk_another_one(people: People) -> None:
    check = PlantCheck(Quadrant.NW, 2, insects=InsectCount(1), skipped=True)
    walk = replace(plain(), checks=(PlantCheck(Quadrant.NW, 1, insects=InsectCount()), check))
    assert len(bring(people, walk).walk_ids) == 1
    assert bring(people, walk).here_already == 1


def test_a_walk_over_two_days_keeps_its_days_and_its_id(people: People) -> None:
    earlier = date(2026, 6, 16)
    checks = (
        PlantCheck(Quadrant.NW, 1, insects=InsectCount(), on=earlier),
        PlantCheck(Quadrant.SE, 1, insects=InsectCount()),
    )
    walk = Walk("Home 80", DAY, checks, id="a 2")
    [walk_id] = bring(people, walk).walk_ids
    assert back([walk_id]) == [walk]
    row = WalkRow.objects.get()
    assert (row.on, row.label, row.state, row.waiting) == (DAY, "a 2", "closed", 0)
    assert list(row.checks.values_list("on", flat=True)) == [earlier, DAY]


def test_a_walk_of_an_unknown_field_refuses_the_whole_table(people: People) -> None:
    with pytest.raises(RefusedInput) as refused:
        bring(people, plain(), plain("Away 80"))  # that one is Charlie's
    second = 2 + len(plain().checks)
    told = [(p.row, p.column, p.value) for p in refused.value.problems]
    assert told == [(second, "field", "Away 80")]
    assert not JournalEntry.objects.exists()


@pytest.mark.parametrize(
    ("odd", "why"),
    [
        ({"note": "x" * 501}, "body.note"),
        ({"scout": "x" * 81}, "body.scout"),
        ({"on": date(1850, 1, 1)}, "body.on"),
    ],
)
def test_what_an_entry_cannot_hold_refuses_the_whole_table(
    people: People, odd: dict[str, Any], why: str
) -> None:
    walk = plain(id="7")
    long = replace(walk, checks=(*walk.checks[:-1], replace(walk.checks[-1], **odd)))
    with pytest.raises(RefusedInput) as refused, transaction.atomic():
        bring(people, plain("East 80"), long)
    [problem] = refused.value.problems
    assert (problem.row, problem.value) == (2 + len(walk.checks), "Home 80, 2026-06-18")
    assert why in problem.hint
    assert not JournalEntry.objects.exists()


def test_an_id_too_long_for_an_entry_refuses_the_table(people: People) -> None:
    with pytest.raises(RefusedInput):
        bring(people, plain(id="x" * 81))


# the desk


def test_a_typed_in_walk_is_a_walk_of_its_scout(people: People) -> None:
    walk_id = enter_walk(
        field=people.home, on=DAY, scout="Wen Adair", checks=plain().checks, by=people.bob
    )
    row = WalkRow.objects.get(walk_id=walk_id)
    assert (row.source, row.scouts, row.plants, row.state, row.on) == (
        "desk", "Wen Adair", 8, "closed", DAY,
    )  # fmt: skip


@pytest.mark.parametrize(
    "checks",
    [(), plain().checks * 2, (PlantCheck(Quadrant.NW, 1, note="x" * 501),)],
)
def test_a_typed_in_walk_that_cannot_be_is_refused(
    people: People, checks: tuple[PlantCheck, ...]
) -> None:
    with pytest.raises(ServiceRefused):
        enter_walk(field=people.home, on=DAY, scout="", checks=checks, by=people.bob)
    assert not JournalEntry.objects.exists()


def test_a_phone_that_goes_on_with_a_typed_in_walk_counts_under_its_own_name(
    bobs: Sender, people: People
) -> None:
    walk_id = enter_walk(
        field=people.home, on=DAY, scout="", checks=plain().checks, by=people.alice
    )
    assert answers(bobs.send(bobs.check(walk_id, "NW", 1))) == ["held"]
    row = WalkRow.objects.get(walk_id=walk_id)
    assert (row.scouts, row.plants, row.doubled) == ("Bob Tarn", 9, 0)
    [walk] = back([walk_id])
    assert walk.scouts == ("Bob Tarn",)


def test_a_walk_of_a_phone_is_struck_on_that_phone_only(bobs: Sender, people: People) -> None:
    said = bobs.open(people.home)
    bobs.send(said)
    with pytest.raises(ServiceRefused, match="phone"):
        strike_walk(walk=WalkRow.objects.get(), by=people.alice)
    assert JournalEntry.objects.filter(state=EntryState.HELD).count() == 1


def test_a_table_is_brought_in_few_questions_to_the_database(
    people: People, django_assert_max_num_queries: Any
) -> None:
    fields = list(FieldRow.objects.filter(district=people.near))
    many = [plain(field.name, id=str(n)) for n in range(20) for field in fields]
    with django_assert_max_num_queries(200):
        assert len(bring(people, *many).walk_ids) == 40
