"""Plants drawn from a true field: what a scout would have found on one walk."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
import numpy.typing as npt

from quarterwalk.demo.district import DemoField, Nature, Visit, Way
from quarterwalk.demo.truth import Truth
from quarterwalk.guideline import load_routine
from quarterwalk.walk import (
    MOST_A_PLANT,
    QUADRANTS,
    InsectCount,
    Method,
    PlantCheck,
    Quadrant,
    SquareCount,
    Walk,
)

# How a walk is made (common practice, as in the field routine): five plants a stop; the
# first loop goes through every quadrant with two stops, the second with three.
PLANTS_A_STOP = 5
LOOPS = ((1, 2), (3, 4, 5))
ROUND = (Quadrant.NW, Quadrant.NE, Quadrant.SE, Quadrant.SW)
"""The quadrants in the order of the walk, from the gate and back to it."""

SWEEPS_A_QUADRANT = 25
"""A quarter of the 100 sweeps that a sweep line is stated for. [sweeps]"""

Place = tuple[Quadrant, int, int]
IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Outing:
    """Who goes to which field on which day, and how the walk goes."""

    field: DemoField
    on: date
    visit: Visit
    helper: str
    """A second scout, for a walk that takes two."""


def draw_walk(outing: Outing, truth: Truth, nature: Nature, rng: np.random.Generator) -> Walk:
    """Walk a true field: draw what is found on each plant.

    Parameters
    ----------
    outing : Outing
        The field, the day and the way.
    truth : Truth
        What is true of the field on that day.
    nature : Nature
        What all fields have in common.
    rng : numpy.random.Generator
        The dice.

    Returns
    -------
    Walk

    Notes
    -----
    Insects are gamma-Poisson plant by plant (negative binomial with the field's k);
    each first position is healthy with a chance of the true square set.
    """
    way, field = outing.visit.way, outing.field
    if way is Way.SWEEP:
        return _sweep_walk(outing, truth, nature, rng)
    places = _places(way)
    looked = _squares_looked(places, truth)
    insects = _insects(places, truth, nature.nymphs, rng)
    squares = _squares(len(places), truth, rng)
    checks = [
        PlantCheck(
            quadrant=place[0],
            stop=_walked(place[0], place[1]),
            plant=place[2],
            insects=None if way is Way.SQUARES_ONLY else found,
            squares=counted if count else None,
            scout=_scout(outing, place[0]),
            on=outing.on if way is Way.TWO_DAYS and place[1] in LOOPS[0] else None,
        )
        for place, found, counted, count in zip(places, insects, squares, looked, strict=True)
        if count or way is not Way.SQUARES_ONLY
    ]
    if way is Way.PLANT_SKIPPED:
        checks = _skip_one(checks)
    first, *others = checks
    noted = (replace(first, note=outing.visit.note), *others)
    if way is Way.TWO_DAYS:
        name = f"{field.name} {outing.on.isoformat()}"
        return Walk(field.name, outing.on + timedelta(days=1), noted, id=name)
    return Walk(field.name, outing.on, noted)


def _places(way: Way) -> list[Place]:
    """Give the plants of a walk in the order in which they are reached."""
    stops = {Way.EARLY_END: (LOOPS[0], LOOPS[1][:1])}.get(way, LOOPS)
    quadrants = ROUND[:-1] if way is Way.QUARTER_MISSING else ROUND
    return [
        (quadrant, stop, plant)
        for loop in stops
        for quadrant in quadrants
        for stop in loop
        for plant in range(1, PLANTS_A_STOP + 1)
    ]


def _walked(quadrant: Quadrant, stop: int) -> int:
    """Number a stop in the order of walking, through both loops."""
    first, second = LOOPS
    at = ROUND.index(quadrant)
    if stop in first:
        return at * len(first) + first.index(stop) + 1
    return len(ROUND) * len(first) + at * len(second) + second.index(stop) + 1


def _squares_looked(places: list[Place], truth: Truth) -> list[bool]:
    """Choose the plants whose squares are counted, spread over a quadrant's stops."""
    if truth.squaring_week is None:
        return [False] * len(places)
    routine = load_routine()
    every = routine.full_walk_plants // len(QUADRANTS)
    by_week = {1: every, 2: routine.square_plants_week_2}
    wanted = by_week.get(truth.squaring_week, routine.square_plants_later)
    stops = len({stop for _, stop, _ in places})
    each, more = divmod(wanted, stops)
    return [plant <= each + (stop <= more) for _, stop, plant in places]


def _insects(
    places: list[Place], truth: Truth, nymph_share: float, rng: np.random.Generator
) -> list[InsectCount]:
    mean = np.array([truth.per_100[QUADRANTS.index(q)] for q, _, _ in places]) / 100
    return _counted(rng.poisson(rng.gamma(truth.clumping, mean / truth.clumping)), nymph_share, rng)


def _counted(found: IntArray, nymph_share: float, rng: np.random.Generator) -> list[InsectCount]:
    found = np.minimum(found, MOST_A_PLANT)
    nymphs = rng.binomial(found, nymph_share)
    return [InsectCount(int(n - y), int(y)) for n, y in zip(found, nymphs, strict=True)]


def _squares(plants: int, truth: Truth, rng: np.random.Generator) -> list[SquareCount]:
    # uniform over a whole number of steps, so that the mean after rounding down is exact
    wide = 1 if truth.sites >= 1 else 0
    sites = np.floor(truth.sites + rng.uniform(-wide, 1 + wide, plants)).astype(np.int64)
    healthy = rng.binomial(sites, truth.square_set)
    lost = rng.multinomial(sites - healthy, truth.lost_as)
    return [
        SquareCount(int(good), *(int(n) for n in gone))
        for good, gone in zip(healthy, lost, strict=True)
    ]


def _scout(outing: Outing, quadrant: Quadrant) -> str:
    north = quadrant in (Quadrant.NW, Quadrant.NE)
    return outing.helper if outing.visit.way is Way.TWO_SCOUTS and north else outing.field.scout


def _skip_one(checks: list[PlantCheck]) -> list[PlantCheck]:
    """Pass over the third plant, and look at the sixth of the stop in its place."""
    at = PLANTS_A_STOP // 2
    seen = checks[at]
    passed = replace(seen, insects=None, squares=None, skipped=True)
    instead = replace(seen, plant=PLANTS_A_STOP + 1)
    stop = [*checks[:at], passed, *checks[at + 1 : PLANTS_A_STOP], instead]
    return [*stop, *checks[PLANTS_A_STOP:]]


def _sweep_walk(outing: Outing, truth: Truth, nature: Nature, rng: np.random.Generator) -> Walk:
    """Walk with the net: one sample a quadrant, no squares."""
    density = np.array([truth.per_100[QUADRANTS.index(q)] for q in ROUND]) / 100
    mean = density * nature.per_sweep * SWEEPS_A_QUADRANT
    # sweeps of a sample add up, and so do their k
    k = truth.clumping * SWEEPS_A_QUADRANT
    found = _counted(rng.poisson(rng.gamma(k, mean / k)), nature.nymphs, rng)
    checks = tuple(
        PlantCheck(
            quadrant,
            1,
            insects=insects,
            sweeps=SWEEPS_A_QUADRANT,
            scout=outing.field.scout,
            note=outing.visit.note if place == 0 else "",
        )
        for place, (quadrant, insects) in enumerate(zip(ROUND, found, strict=True))
    )
    return Walk(outing.field.name, outing.on, checks, method=Method.SWEEP)
