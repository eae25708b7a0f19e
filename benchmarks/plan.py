"""What stop plans save, what they add to the errors, and how near to the best they are.

Every packaged guideline and week, each question once; nothing is simulated. Minutes are those
of a square field, averaged over the usual spread of fields; the full walk is one tour of
twenty stops. Run: python benchmarks/plan.py [--question TEXT] [--quick]

--question TEXT   only the questions whose name has TEXT in it, such as "week 2"
--quick           only 3 squares a plant, no bounds
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array, eye_array, hstack

from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, guideline_names, load_guideline
from quarterwalk.plan import (
    CRITERION,
    NOMINAL,
    ROBUST,
    THREE_LOOPS,
    TWO_LOOPS,
    WORLDS,
    Cost,
    Course,
    Lost,
    Question,
    Row,
    Shelved,
    SquareBar,
    SquaresOn,
    Stopping,
    Way,
    World,
    cost_of,
    course_of,
    excess_errors,
    outcomes,
    question_for,
    shelved_for,
)
from quarterwalk.plan.bound import least_cost, most_ends
from quarterwalk.plan.columns import columns
from quarterwalk.plan.course import walked
from quarterwalk.plan.descent import descend
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.laws import insects_law, lost_law
from quarterwalk.plan.look import aims_for
from quarterwalk.plan.minutes import minutes_by_look, square_field_loops, square_field_metres
from quarterwalk.plan.one_look import only_look
from quarterwalk.plan.outcome import follow
from quarterwalk.plan.prior import fields_for
from quarterwalk.walk import QUADRANTS

ACRES = (20, 60, 120)
SQUARES_A_PLANT = (2, 3, 5)
FULL_STOPS = 20

# The grid on which errors are looked for beside the points: multiples of the line, and square
# set as its distance from the floor; closest together where plans err most. 23 x 20 fields.
TIMES_LINE = (0.08, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0, 1.05, 1.1, 1.2,
              1.3, 1.4, 1.7, 2.0, 2.5, 3.2, 4.2, 5.2)  # fmt: skip
OFF_FLOOR = (-0.30, -0.25, -0.20, -0.15, -0.12, -0.10, -0.08, -0.06, -0.04, -0.03, -0.02, -0.01,
             0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.065, 0.08)  # fmt: skip

# Line 25 and floor .85, 3 squares a plant, 60 acres: the case that the goals are stated for.
STATED = Question(Fraction(25), SquareBar(Fraction(15, 100)))
STATED_SQUARES, STATED_ACRES = 3, 60
BOUND_WITHIN, OUTCOME_MS = 1.04, 100.0


@dataclass(frozen=True, slots=True)
class Case:
    """A question, with the guidelines and weeks that ask it, and the last of those weeks."""

    name: str
    question: Question
    week: int


@dataclass(frozen=True, slots=True)
class Goal:
    """A share of the full walk's minutes that was aimed at."""

    what: str
    most: float
    stopping: Stopping
    squares_on: SquaresOn
    loops: tuple[int, ...] = TWO_LOOPS
    clear: bool = False


HOLD, EITHER = Stopping.HOLD_ONLY, Stopping.EITHER_WAY
EVERY, FIRST = SquaresOn.EVERY_PLANT, SquaresOn.FIRST_LOOP
GOALS = (
    Goal("hold only, squares on every plant", 0.85, HOLD, EVERY),
    Goal("either way, squares on every plant", 0.72, EITHER, EVERY),
    Goal("hold only, squares in the first loop", 0.88, HOLD, FIRST),
    Goal("clear field, two loops", 0.58, HOLD, EVERY, clear=True),
    Goal("clear field, three loops", 0.42, HOLD, EVERY, THREE_LOOPS, clear=True),
)


def cases() -> list[Case]:
    """Give every packaged question once, with the last of the weeks that ask it."""
    asked: dict[Question, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for name in guideline_names():
        for week in range(1, CLOSEST_WATCH_WEEKS + 1):
            question = question_for(load_guideline(name), week)
            if question is not None:
                asked[question][name].append(week)
    return [
        Case(f"{_named(by)}: {asks(question)}", question, max(max(by.values())))
        for question, by in asked.items()
    ]


def _named(by: dict[str, list[int]]) -> str:
    weeks = ((name, ", ".join(map(str, each))) for name, each in by.items())
    return "; ".join(f"{name}, week {each}" for name, each in weeks)


def asks(question: Question) -> str:
    """Say a question in words."""
    if question.bar is None:
        return f"{question.line} insects per 100"
    share = f"{float(question.bar.share):.2f}".lstrip("0")
    if question.bar.lost is Lost.BLASTED:
        return f"{question.line} insects per 100 and {share} of squares blasted"
    return f"{question.line} insects per 100 and more than {share} of squares lost"


def square_way(acres: float) -> Way:
    """Give the ways of a square field."""
    quarters = len(QUADRANTS)
    designs = (TWO_LOOPS, THREE_LOOPS)
    loops = {
        loops: tuple(square_field_metres(acres, quarters * each) for each in loops)
        for loops in designs
    }
    return Way(loops, square_field_metres(acres, FULL_STOPS))


def design_cost(shelved: Shelved, week: int, squares: float, acres: float) -> Cost:
    """Give what a plan costs in a square field."""
    return cost_of(shelved, square_way(acres), week, squares)


def designs(question: Question) -> Iterator[Shelved]:
    """Give all plans of the package for a question."""
    kinds = (SquaresOn.NONE,) if question.bar is None else (EVERY, FIRST)
    for stopping in Stopping:
        for squares_on in kinds:
            yield from shelved_for(question, stopping, squares_on)


def bound_minutes(cost: Cost) -> float:
    """Give the least minutes of any plan with the same looks.

    Two loops: within the limits in all four worlds, exact. Three loops: in the nominal world
    alone, so a plan that keeps its limits in the others too can't come as near.
    """
    plan = cost.shelved.plan
    course = course_of(plan, cost.row)
    if len(cost.by_look) == len(TWO_LOOPS):
        ends = most_ends(course, plan.stopping)
        return ends * cost.by_look[0] + (1.0 - ends) * cost.by_look[1]
    return least_cost(course, plan.stopping, cost.by_look).least


def grid(question: Question) -> tuple[np.ndarray, np.ndarray]:
    """Give the true values of all fields of the grid."""
    density = np.array(TIMES_LINE) * float(question.line) / 100.0
    if question.bar is None:
        return density, np.zeros_like(density)
    share = np.clip(float(question.bar.share) - np.array(OFF_FLOOR), 0.0, 1.0)
    return np.repeat(density, share.size), np.tile(share, density.size)


def worst_on_grid(shelved: Shelved, row: int, world: World) -> tuple[float, float, float]:
    """Give the most by which the error is above the full walk's, in points, and where."""
    course = course_of(shelved.plan, row)
    density, share = grid(course.question)
    rows = [look.rows[row] for look in shelved.plan.looks]
    excess = 100.0 * excess_errors(course, rows, world, density, share)
    at = int(np.argmax(excess))
    return float(excess[at]), float(density[at]), float(share[at])


def outcome_ms(shelved: Shelved, row: int, world: World, *, cold: bool) -> float:
    """Time the outcome at the 460 fields of the grid, the median of 7. [ms]"""
    density, share = grid(shelved.plan.question)
    times = []
    for _ in range(7):
        if cold:
            insects_law.cache_clear()
            lost_law.cache_clear()
        start = time.perf_counter()
        outcomes(shelved.plan, row, density, share, world)
        times.append(1000.0 * (time.perf_counter() - start))
    return statistics.median(times)


def print_case(case: Case, *, quick: bool) -> None:
    """Print minutes, bounds and errors of all designs for one question."""
    print(f"\n{case.name}")
    for shelved in designs(case.question):
        plan = shelved.plan
        loops = " + ".join(str(5 * len(QUADRANTS) * each) for each in plan.loops)
        print(f"  {plan.stopping}, squares on {plan.squares_on}, {loops} plants ({plan.short})")
        for squares in squares_tried(case.question, quick=quick):
            print(f"    {squares} squares a plant: " + minutes_line(shelved, case.week, squares))
            cost = design_cost(shelved, case.week, squares, STATED_ACRES)
            if not quick:
                print(f"      {bound_line(cost)}")
            print(f"      {errors_line(shelved, cost.row)}")


def squares_tried(question: Question, *, quick: bool) -> tuple[int, ...]:
    """Give the squares a plant that are gone through."""
    if question.bar is None:
        return (0,)
    return (STATED_SQUARES,) if quick else SQUARES_A_PLANT


def minutes_line(shelved: Shelved, week: int, squares: float) -> str:
    """Tell minutes and plants in fields of three sizes."""
    told = []
    for acres in ACRES:
        cost = design_cost(shelved, week, squares, acres)
        share, clear = cost.minutes / cost.full_minutes, cost.clear_minutes / cost.full_minutes
        told.append(f"{acres} acres {cost.minutes:.1f} min, {share:.3f} (clear {clear:.3f})")
    figures = shelved.figures[cost.row]
    told.append(f"plants {figures.plants:.1f} (clear {figures.clear_plants:.1f})")
    return "; ".join(told)


def bound_line(cost: Cost) -> str:
    """Tell how far from the bound a plan is on 60 acres."""
    least = bound_minutes(cost)
    told = f"bound {least / cost.full_minutes:.3f}, {cost.minutes / least:.3f} times it"
    if len(cost.by_look) == len(TWO_LOOPS):
        return f"{told} (goal {BOUND_WITHIN}: {_met(cost.minutes, BOUND_WITHIN * least)})"
    return f"{told}, but that bound is of the nominal world alone"


def errors_line(shelved: Shelved, row: int) -> str:
    """Tell how far errors rise, world by world."""
    course = course_of(shelved.plan, row)
    rows = [look.rows[row] for look in shelved.plan.looks]
    told = []
    for world in WORLDS:
        clear, near = worst_errors(course, rows, world)
        worst, density, share = worst_on_grid(shelved, row, world)
        told.append(
            f"{world.name} {clear:.2f}/{near:.2f}, grid {worst:.1f} ({density:.3g}, {share:.3g})"
        )
    return "points above the full walk, clear/near: " + "; ".join(told)


def print_goals() -> None:
    """Print what was aimed at and what came out."""
    print(
        f"\ngoals, {asks(STATED)}, {STATED_SQUARES} squares a plant, {STATED_ACRES} acres, week 2"
    )
    for goal in GOALS:
        cost = goal_cost(goal)
        minutes = cost.clear_minutes if goal.clear else cost.minutes
        share = minutes / cost.full_minutes
        print(f"  {goal.what}: {share:.4f} of the full walk, goal {goal.most}: "
              f"{_met(share, goal.most)}")  # fmt: skip
    figures = [row for each in designs(STATED) for row in each.figures]
    for name in ("clear", "near"):
        worst, most = (
            max(getattr(row, f"worst_{name}") for row in figures),
            getattr(CRITERION, name),
        )
        print(f"  error above the full walk's, {name} points, the worst row and world:"
              f" {worst:.3f} points, goal {most:g}: {_met(worst, most + 5e-4)}")  # fmt: skip
    shelved = shelved_for(STATED, EITHER, EVERY)[0]
    for world in (NOMINAL, ROBUST[0]):
        first = outcome_ms(shelved, 0, world, cold=True)
        again = outcome_ms(shelved, 0, world, cold=False)
        print(f"  outcome at {len(grid(STATED)[0])} points, {world.name}: {first:.0f} ms,"
              f" {again:.0f} ms where the laws are known, goal {OUTCOME_MS:.0f}:"
              f" {_met(first, OUTCOME_MS)}")  # fmt: skip


def print_search() -> None:
    """Print how near to the bound the search for three loops comes where both keep one world."""
    course = walked(STATED, THREE_LOOPS, EVERY, 20 * STATED_SQUARES)
    cost = minutes_by_look(course, square_field_loops(STATED_ACRES, course))
    for stopping in Stopping:
        found = descend(course, stopping, cost, worlds=(NOMINAL,))
        bound = least_cost(course, stopping, cost)
        minutes = found_minutes(course, found.rows, cost)
        print(f"  three loops, {stopping}, limits kept in the nominal world alone:"
              f" {minutes / bound.least:.3f} times the bound, goal {BOUND_WITHIN}:"
              f" {_met(minutes, BOUND_WITHIN * bound.least)}")  # fmt: skip


def print_any_edge() -> None:
    """Print the best plan whose edges may bend anywhere, so that more never means less."""
    for stopping in Stopping:
        for squares in SQUARES_A_PLANT:
            shelved = shelved_for(STATED, stopping, EVERY)[0]
            cost = design_cost(shelved, 2, squares, STATED_ACRES)
            ends = most_ends_any_edge(course_of(shelved.plan, cost.row), stopping)
            least = ends * cost.by_look[0] + (1.0 - ends) * cost.by_look[1]
            share, over = least / cost.full_minutes, cost.minutes / least
            print(f"  two loops, {stopping}, {squares} squares a plant, edges bent anywhere:"
                  f" {share:.4f} of the full walk; packaged {over:.4f} times it")  # fmt: skip


def most_ends_any_edge(course: Course, stopping: Stopping) -> float:
    """Give the most walks that any printable plan could end after the first of two loops.

    With fewer insects or fewer lost a count that holds still holds, with more of them one that
    treats still treats. An integer programme, solved to the last five parts in ten thousand;
    counts past the edge of the table are put into its last row and column.
    """
    aims = aims_for(course, WORLDS, CRITERION)
    at = only_look(aims, stopping)
    insects, lost = 28, min(at.saved.shape[1], course.squares[0] * 2 // 5)
    hold, treat, saved = (_edged(each, insects, lost) for each in (at.hold, at.treat, at.saved))
    points, cells = len(aims.sign), insects * lost
    errors = hstack(
        [csr_array(hold.reshape(points, cells)), csr_array(treat.reshape(points, cells))]
    )
    place = np.arange(cells).reshape(insects, lost)
    less = np.concatenate([place[:-1].ravel(), place[:, :-1].ravel()])
    more = np.concatenate([place[1:].ravel(), place[:, 1:].ravel()])
    falls = _differences(np.concatenate([more, cells + less]),
                         np.concatenate([less, cells + more]), 2 * cells)  # fmt: skip
    once = hstack([eye_array(cells), eye_array(cells)])
    most = np.repeat([1.0, float(stopping is Stopping.EITHER_WAY)], cells)
    done = milp(
        -np.tile(saved.ravel(), 2),
        constraints=[
            LinearConstraint(errors, -np.inf, aims.allowed),
            LinearConstraint(falls, -np.inf, 0.0),
            LinearConstraint(once, -np.inf, 1.0),
        ],
        bounds=Bounds(0.0, most),
        integrality=np.ones(2 * cells),
        options={"mip_rel_gap": 5e-4, "time_limit": 300.0},
    )
    return -float(done.mip_dual_bound)


def _edged(values: np.ndarray, insects: int, lost: int) -> np.ndarray:
    """Put counts past the edge into the last row and the last column."""
    kept = values[..., :insects, :].copy()
    kept[..., -1, :] += values[..., insects:, :].sum(axis=-2)
    table = kept[..., :lost].copy()
    table[..., -1] += kept[..., lost:].sum(axis=-1)
    return table


def _differences(plus: np.ndarray, minus: np.ndarray, columns_: int) -> csr_array:
    """Give a matrix whose rows take one unknown from another."""
    rows = np.arange(plus.size)
    ones = np.ones(plus.size)
    places = (np.tile(rows, 2), np.concatenate([plus, minus]))
    return csr_array((np.concatenate([ones, -ones]), places), shape=(plus.size, columns_))


def found_minutes(course: Course, rows: Sequence[Row], cost: Sequence[float]) -> float:
    """Give the mean minutes of limits over the usual spread of fields. [minutes]"""
    spread = fields_for(course.question)
    done = follow(columns(course, (NOMINAL,), spread.density, spread.share), rows)
    return float(done.mean(cost) @ spread.weight)


def goal_cost(goal: Goal) -> Cost:
    """Give the cost that a goal speaks of."""
    found = shelved_for(STATED, goal.stopping, goal.squares_on)
    shelved = next(each for each in found if each.plan.loops == goal.loops)
    return design_cost(shelved, 2, STATED_SQUARES, STATED_ACRES)


def _met(found: float, most: float) -> str:
    return "met" if found <= most else "not met"


def main() -> None:
    """Print all of it, or what is asked for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--question", default="", metavar="TEXT")
    parser.add_argument("--quick", action="store_true")
    options = parser.parse_args()
    for case in cases():
        if options.question in case.name:
            print_case(case, quick=options.quick)
    print_goals()
    if not options.quick:
        print_search()
        print_any_edge()


if __name__ == "__main__":
    main()
