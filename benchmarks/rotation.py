"""The plans that look every five plants, going round the quarters: a yardstick, never walked.

Line 25, floor .85, 3 squares a plant on every plant, either way, the usual spread of fields.
Nobody crosses a field for five plants at a time; they say how few plants could do if looks cost
nothing. Run: python benchmarks/rotation.py (half a minute)
"""

from __future__ import annotations

from fractions import Fraction

from quarterwalk.plan import NOMINAL, WORLDS, Course, Question, Row, SquareBar, Stopping, Stretch
from quarterwalk.plan.bound import least_cost
from quarterwalk.plan.columns import columns
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.prior import fields_for

FIRST, EACH, PLANTS, SQUARES = 20, 5, 100, 3

# Two thirds of the fields of the spread are rarer than this; together they are one in 170,000.
RAREST = 1e-6

# Found by a search beforehand, look by look: insects low, lost low, sum low, insects high, lost
# high, from 20 plants to 95. The first keeps the limits on errors in the nominal world, the
# second in all four.
NOMINAL_LIMITS = (
    (0, 3, 10, 11, 14), (1, 5, 13, 12, 16), (2, 7, 17, 13, 19), (3, 10, 20, 14, 21),
    (4, 12, 25, 15, 23), (5, 15, 28, 16, 24), (6, 17, 32, 17, 26), (8, 20, 36, 18, 28),
    (9, 23, 40, 19, 30), (10, 25, 45, 20, 32), (11, 28, 48, 21, 35), (13, 31, 52, 21, 36),
    (14, 34, 57, 22, 38), (16, 36, 60, 23, 40), (18, 39, 63, 23, 42), (20, 41, 67, 24, 45),
)  # fmt: skip
ROBUST_LIMITS = (
    (-1, 1, 9, 12, 16), (0, 4, 13, 13, 18), (1, 6, 16, 14, 20), (2, 9, 20, 15, 22),
    (3, 11, 24, 16, 24), (4, 14, 28, 17, 25), (5, 16, 32, 18, 27), (7, 19, 35, 19, 29),
    (8, 22, 39, 19, 31), (9, 24, 43, 20, 33), (11, 27, 47, 21, 35), (12, 30, 51, 22, 36),
    (13, 32, 55, 23, 39), (15, 35, 59, 23, 40), (17, 38, 63, 24, 43), (19, 42, 66, 24, 45),
)  # fmt: skip


def rotating_course() -> Course:
    """Give a walk of 20 plants, then five at a time."""
    question = Question(Fraction(25), SquareBar(Fraction(15, 100)))
    more = Stretch(EACH // 5, EACH, SQUARES * EACH)
    times = (PLANTS - FIRST) // EACH
    return Course(question, (Stretch(FIRST // 5, FIRST, SQUARES * FIRST),) + (more,) * times)


def rows_of(limits: tuple[tuple[int, ...], ...]) -> list[Row]:
    """Give limits as rows, one a look."""
    squares = rotating_course().squares
    return [Row(at, *numbers) for at, numbers in zip(squares, limits, strict=False)]


def expected_plants(limits: tuple[tuple[int, ...], ...]) -> float:
    """Give the mean plants over the usual spread of fields. [count]"""
    course = rotating_course()
    spread = fields_for(course.question)
    often = spread.weight > RAREST
    density, share, weight = spread.density[often], spread.share[often], spread.weight[often]
    done = follow(columns(course, (NOMINAL,), density, share), rows_of(limits))
    return float(done.mean(done.plants) @ weight / weight.sum())


def main() -> None:
    """Print mean plants and errors of both, and the bound."""
    course = rotating_course()
    for name, limits in (("nominal", NOMINAL_LIMITS), ("robust", ROBUST_LIMITS)):
        print(
            f"{name}: {expected_plants(limits):.2f} plants; points above the full walk, clear/near:"
        )
        for world in WORLDS:
            clear, near = worst_errors(course, rows_of(limits), world)
            print(f"  {world.name} {clear:.2f}/{near:.2f}")
    bound = least_cost(course, Stopping.EITHER_WAY, course.plants)
    print(f"any plan, nominal world: {bound.least:.2f} to {bound.attained:.2f} plants")


if __name__ == "__main__":
    main()
