"""Walks drawn plant by plant: a second way to the same figures, which shares no law with it.

Plants are drawn one by one from the words of the method page: stops of five plants with one
gamma factor each, negative binomial plants, squares whose share of lost ones differs from
plant to plant. Only then are the counts looked up.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from quarterwalk.plan import Course, Lost, Plan, Question, Side, World

_STOP = 5


@dataclass(frozen=True)
class Drawn:
    """Counts of many walks by the end of each loop, shape (walks, loops). [count]"""

    insects: np.ndarray
    lost: np.ndarray


@dataclass(frozen=True)
class Ends:
    """How many of the walks ended where, and what was said. [count]

    `hold` and `treat` have a number for each look and one for the full walk; `full_treats` is
    of walks that never end early.
    """

    walks: int
    hold: np.ndarray
    treat: np.ndarray
    full_treats: int


def draw(
    course: Course,
    world: World,
    density: float,
    share: float,
    walks: int,
    dice: np.random.Generator,
) -> Drawn:
    """Draw walks of one field, plant by plant."""
    insects, lost = [], []
    for part in course.stretches:
        insects.append(_insects(part.stops, world, density, walks, dice))
        lost.append(_lost(part.square_plants, part.squares, world, share, walks, dice))
    return Drawn(np.cumsum(insects, axis=0).T, np.cumsum(lost, axis=0).T)


def follow(plan: Plan, course: Course, drawn: Drawn) -> Ends:
    """Look the counts of every walk up, look by look, and judge what is left by the rule."""
    walks = len(drawn.insects)
    going = np.ones(walks, dtype=bool)
    hold, treat = [], []
    for number, look in enumerate(plan.looks):
        counts = np.stack([drawn.insects[:, number], drawn.lost[:, number]], axis=1)
        side = _sides(look, counts, course.squares[number])
        hold.append(int((going & (side == Side.HOLD)).sum()))
        treat.append(int((going & (side == Side.TREAT)).sum()))
        going &= side == Side.GO_ON
    over = _rule(course, drawn.insects[:, -1], drawn.lost[:, -1])
    hold.append(int((going & ~over).sum()))
    treat.append(int((going & over).sum()))
    return Ends(walks, np.array(hold), np.array(treat), int(over.sum()))


def says_treat(question: Question, insects: int, plants: int, lost: int, squares: int) -> bool:
    """Apply the rule as it is printed: insects per 100, and the set or the blasted share."""
    if Fraction(100 * insects, plants) < question.line:
        return False
    if question.bar is None:
        return True
    if question.bar.lost is Lost.BLASTED:
        return Fraction(lost, squares) >= question.bar.share
    return Fraction(squares - lost, squares) < 1 - question.bar.share


def _insects(
    stops: int, world: World, density: float, walks: int, dice: np.random.Generator
) -> np.ndarray:
    mean = np.full((walks, stops, _STOP), density)
    if world.stop_cv:
        shape = 1.0 / world.stop_cv**2
        mean = mean * dice.gamma(shape, 1.0 / shape, (walks, stops, 1))
    if np.isfinite(world.k):
        mean = mean * dice.gamma(world.k, 1.0 / world.k, mean.shape)
    return dice.poisson(mean).sum(axis=(1, 2))


def _lost(
    plants: int, squares: int, world: World, share: float, walks: int, dice: np.random.Generator
) -> np.ndarray:
    if not squares:
        return np.zeros(walks, dtype=int)
    on_each = np.array([squares // plants + (i < squares % plants) for i in range(plants)])
    chance = np.full((walks, plants), share)
    if world.rho and 0.0 < share < 1.0:
        together = 1.0 / world.rho - 1.0
        chance = dice.beta(share * together, (1.0 - share) * together, (walks, plants))
    return dice.binomial(on_each, chance).sum(axis=1)


def _sides(look, counts: np.ndarray, squares: int) -> np.ndarray:
    different, which = np.unique(counts, axis=0, return_inverse=True)
    sides = np.array([look.side(int(x), int(y), squares) for x, y in different], dtype=object)
    return sides[which.ravel()]


def _rule(course: Course, insects: np.ndarray, lost: np.ndarray) -> np.ndarray:
    different, which = np.unique(np.stack([insects, lost], axis=1), axis=0, return_inverse=True)
    plants, squares = course.plants[-1], course.squares[-1]
    said = [says_treat(course.question, int(x), plants, int(y), squares) for x, y in different]
    return np.array(said)[which.ravel()]
