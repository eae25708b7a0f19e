"""A walk is one look at one field."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.walk import InsectCount, Method, PlantCheck, Quadrant, RecordError, Sites, Walk

DAY = date(2026, 6, 18)
EVE = date(2026, 6, 17)
PLANT = PlantCheck(Quadrant.NW, 1)


def test_a_walk_counts_on_terminals_and_looks_at_all_sites_unless_said() -> None:
    walk = Walk("Home 40", DAY, (PLANT,))
    assert (walk.method, walk.sites, walk.plan, walk.id) == (Method.TERMINAL, Sites.ALL, "", "")


@pytest.mark.parametrize("field", ["", "  "])
def test_a_walk_is_of_a_field_with_a_name(field: str) -> None:
    with pytest.raises(RecordError, match="field must be a name"):
        Walk(field, DAY, (PLANT,))


def test_a_walk_has_a_plant() -> None:
    with pytest.raises(RecordError, match="at least one plant check"):
        Walk("Home", DAY, ())


def test_a_scout_counts_a_plant_once() -> None:
    with pytest.raises(RecordError, match="unique within scout, quadrant and stop"):
        Walk("Home", DAY, (PLANT, PlantCheck(Quadrant.NW, 1, insects=InsectCount(1))))


@pytest.mark.parametrize(
    "other",
    [
        PlantCheck(Quadrant.NW, 2),
        PlantCheck(Quadrant.NE, 1),
        PlantCheck(Quadrant.NW, 1, stop=1),
        PlantCheck(Quadrant.NW, 1, scout="Ben"),
    ],
)
def test_another_plant_stop_quadrant_or_scout_makes_another_check(other: PlantCheck) -> None:
    assert len(Walk("Home", DAY, (PLANT, other)).checks) == 2


def test_a_walk_in_parts_has_an_id_and_the_date_of_its_last_day() -> None:
    parts = (PlantCheck(Quadrant.NW, 1, on=EVE), PlantCheck(Quadrant.NE, 1, on=DAY))
    assert Walk("Home", DAY, parts, "w1").date == DAY
    with pytest.raises(RecordError, match="id must be given"):
        Walk("Home", DAY, parts)
    with pytest.raises(RecordError, match="date must be the last day"):
        Walk("Home", EVE, parts, "w1")
    with pytest.raises(RecordError, match="date must be the last day"):
        Walk("Home", DAY, parts[:1], "w1")


def test_a_sweep_sample_that_was_counted_has_its_sweeps() -> None:
    def sweep(**what: object) -> Walk:
        check = PlantCheck(Quadrant.NW, 1, **what)  # type: ignore[arg-type]
        return Walk("Home", DAY, (check,), method=Method.SWEEP)

    with pytest.raises(RecordError, match="sweeps must be given"):
        sweep(insects=InsectCount(2))
    assert sweep(insects=InsectCount(2), sweeps=25).method is Method.SWEEP
    assert sweep(insects=InsectCount(2), skipped=True).checks[0].sweeps is None
    assert sweep().checks[0].sweeps is None


def test_scouts_stand_in_the_order_of_their_first_plants() -> None:
    names = ["Ben", "", "Ann", "Ben"]
    checks = tuple(PlantCheck(Quadrant.NW, n, scout=name) for n, name in enumerate(names, 1))
    assert Walk("Home", DAY, checks).scouts == ("Ben", "Ann")
