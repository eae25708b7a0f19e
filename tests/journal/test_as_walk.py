"""The walk of which the core makes a call."""

from __future__ import annotations

from datetime import date

from quarterwalk.journal import Entry, replay, to_walk
from quarterwalk.reading import take_reading
from quarterwalk.walk import InsectCount, Method, PlantCheck, Quadrant, Walk
from tests.journal.made import (
    JOSSES,
    NAMES,
    WALK,
    entry,
    opened,
    plant,
    skipped,
    struck,
)


def walk_of(*entries: Entry, names: dict[str, str] | None = None) -> Walk | None:
    return to_walk(replay(WALK, entries, NAMES if names is None else names), "Home 40")


def test_a_walk_from_the_journal_is_the_walk_of_the_same_rows() -> None:
    day, before = date(2026, 6, 18), date(2026, 6, 17)
    found = walk_of(
        opened(label="t-7", plan="early"),
        entry(2, plant(1, scout="Ada", on=before, insects=InsectCount(1, 0), note="wet")),
        entry(3, plant(2, scout="Ada", on=day)),
        entry(4, skipped(3)),
    )
    assert found == Walk(
        "Home 40",
        day,
        (
            PlantCheck(Quadrant.NW, 1, 1, InsectCount(1, 0), scout="Ada", on=before, note="wet"),
            PlantCheck(Quadrant.NW, 2, 1, InsectCount(0, 0), scout="Ada"),
            PlantCheck(Quadrant.NW, 3, 1, scout="Wen Adair", skipped=True),
        ),
        id="t-7",
        plan="early",
    )


def test_a_walk_that_no_table_named_is_called_by_its_own_id() -> None:
    found = walk_of(opened(), entry(2, plant(1)))
    assert found is not None
    assert found.id == WALK


def test_there_is_no_walk_without_a_plant_or_without_a_live_opening() -> None:
    assert walk_of() is None
    assert walk_of(opened()) is None
    assert walk_of(entry(2, plant(1))) is None
    assert walk_of(opened(), entry(2, plant(1)), entry(3, struck(1))) is None


def test_two_scouts_of_one_name_stay_two() -> None:
    same = dict.fromkeys(NAMES, "Wen Adair")
    found = walk_of(
        opened(),
        entry(2, plant(1)),
        entry(5, plant(1), device=JOSSES),
        entry(6, plant(1, scout="Wen Adair 2"), device=JOSSES),
        names=same,
    )
    assert found is not None
    assert found.scouts == ("Wen Adair", "Wen Adair 2", "Wen Adair 2 2")


def test_a_sample_without_its_sweeps_is_in_no_reading() -> None:
    found = walk_of(
        opened(Method.SWEEP),
        entry(2, plant(1, insects=InsectCount(9, 9))),
        entry(3, plant(2, insects=InsectCount(1, 0), sweeps=25)),
    )
    assert found is not None
    assert [check.plant for check in found.checks] == [2]
    assert take_reading(found).per_100 == 4
