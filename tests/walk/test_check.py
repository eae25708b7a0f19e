"""A plant check is possible, or it is not made."""

from __future__ import annotations

import pickle
from typing import Any

import pytest

from quarterwalk.walk import InsectCount, PlantCheck, Quadrant, RecordError, SquareCount


def test_adults_and_nymphs_count_together() -> None:
    assert InsectCount(adults=3, nymphs=4).total == 7


def test_every_first_position_looked_at_is_a_site_whatever_became_of_it() -> None:
    assert SquareCount(healthy=5, missing=2, blasted=1, flared=1).sites == 9


def test_looked_and_none_there_is_not_the_same_as_not_looked() -> None:
    looked = PlantCheck(Quadrant.NW, 1, insects=InsectCount(0, 0))
    assert looked != PlantCheck(Quadrant.NW, 1)


@pytest.mark.parametrize("kind", ["adults", "nymphs"])
@pytest.mark.parametrize("count", [-1, 100, 1.0, True, "1", None])
def test_an_insect_count_is_a_whole_number_from_0_to_99(kind: str, count: Any) -> None:
    with pytest.raises(RecordError, match="a whole number from 0 to 99") as refused:
        InsectCount(**{kind: count})
    assert (refused.value.what, refused.value.got) == (kind, count)


@pytest.mark.parametrize("kind", ["healthy", "missing", "blasted", "flared"])
@pytest.mark.parametrize("count", [-1, 100, 2.5])
def test_a_square_count_is_a_whole_number_from_0_to_99(kind: str, count: Any) -> None:
    with pytest.raises(RecordError, match="a whole number from 0 to 99") as refused:
        SquareCount(**{kind: count})
    assert refused.value.what == kind


def test_99_can_be_counted() -> None:
    assert InsectCount(99, 99).total == 198
    assert SquareCount(99, 99, 99, 99).sites == 396


@pytest.mark.parametrize(
    ("what", "got"),
    [("plant", 0), ("plant", 1_000_000), ("stop", 0), ("sweeps", 0), ("sweeps", 10_000)],
)
def test_plant_stop_and_sweeps_count_from_1(what: str, got: int) -> None:
    with pytest.raises(RecordError, match=f"{what} must be a whole number from 1 to"):
        PlantCheck(Quadrant.NW, **{"plant": 1, what: got})


def test_a_quadrant_is_one_of_four() -> None:
    assert [str(quadrant) for quadrant in Quadrant] == ["NW", "NE", "SW", "SE"]
    with pytest.raises(RecordError, match="one of NW, NE, SW, SE, got 'NW'"):
        PlantCheck("NW", 1)  # type: ignore[arg-type]


def test_a_plant_is_told_from_others_by_scout_quadrant_stop_and_number() -> None:
    plant = PlantCheck(Quadrant.SE, 4, 3, scout="Ann")
    assert plant.place == ("Ann", "SE", 3, 4)
    assert PlantCheck(Quadrant.SE, 4).place == ("", "SE", 0, 4)


def test_a_refusal_survives_the_way_between_processes() -> None:
    error = RecordError("adults", "a whole number from 0 to 99", 100)
    assert str(pickle.loads(pickle.dumps(error))) == str(error)
    assert str(error) == "adults must be a whole number from 0 to 99, got 100."
