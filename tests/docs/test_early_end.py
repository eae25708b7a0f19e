"""The page "When a walk may end early": its numbers are those of the data and of the plans."""

from __future__ import annotations

import math
import re
from datetime import date
from fractions import Fraction
from functools import cache

import numpy as np
import pytest
from scipy import stats

import plan_pictures
from benchmarks.between import limits_of, on_paper, on_the_line
from benchmarks.plan import (
    GOALS,
    OFF_FLOOR,
    STATED,
    TIMES_LINE,
    asks,
    cases,
    design_cost,
    designs,
    goal_cost,
    square_way,
    worst_on_grid,
)
from benchmarks.rotation import NOMINAL_LIMITS, ROBUST_LIMITS, expected_plants
from quarterwalk.plan import (
    THREE_LOOPS,
    TWO_LOOPS,
    WORLDS,
    Cost,
    Course,
    Lost,
    Question,
    Shelved,
    SquareBar,
    SquaresOn,
    Stopping,
    World,
    course_of,
    nearest_row,
    shelved_for,
    walked,
)
from quarterwalk.plan.bound import most_ends
from quarterwalk.plan.columns import columns
from quarterwalk.plan.figures import worst_errors
from quarterwalk.plan.minutes import full_walk_minutes, minutes_by_look
from quarterwalk.plan.numbers import load_numbers
from quarterwalk.plan.outcome import follow, sides
from quarterwalk.plan.worlds import NOMINAL
from quarterwalk.reading import Reading, take_reading
from quarterwalk.walk import COUNTS, PlantRows, WalkHead, WalkTable
from tests.docs.said import DOCS, rows, section

PAGE = DOCS / "methods" / "early-end.md"
SOURCES = {"practice": "common practice", "ours": "ours", "assumed": "assumed", "tour": "[5]"}
HOLD, EITHER = Stopping.HOLD_ONLY, Stopping.EITHER_WAY
EVERY, FIRST = SquaresOn.EVERY_PLANT, SquaresOn.FIRST_LOOP
WEEK, ACRES, A_PLANT = 2, (20, 60, 120), 3
DAY = date(2026, 6, 26)


def short(value: float, places: int = 2) -> str:
    """Write a share as the page does, without the nought before the point."""
    return f"{value:.{places}f}".replace("0.", ".", 1) if abs(value) < 1 else f"{value:.{places}f}"


def plain(heading: str) -> str:
    return " ".join(section(PAGE, heading).split())


def design(stopping: Stopping, squares_on: SquaresOn, loops: tuple[int, ...]) -> Shelved:
    found = shelved_for(STATED, stopping, squares_on)
    return next(each for each in found if each.plan.loops == loops)


STATED_DESIGNS = {
    (words, ways): design(stopping, squares_on, loops)
    for words, squares_on, loops in (
        ("every plant, 40 + 60", EVERY, TWO_LOOPS),
        ("every plant, 20 + 40 + 40", EVERY, THREE_LOOPS),
        ("first loop, 40 + 60", FIRST, TWO_LOOPS),
    )
    for ways, stopping in (("not to treat", HOLD), ("either way", EITHER))
}


def drawn(stopping: Stopping = EITHER, squares: int = 120) -> tuple[Shelved, int, Course]:
    """Give the plan of the pictures and of the example, one of its rows, and its course."""
    shelved = design(stopping, FIRST, TWO_LOOPS)
    row = nearest_row(shelved, squares)
    return shelved, row, course_of(shelved.plan, row)


# What the data say


def expected_worlds() -> list[list[str]]:
    def cell(value: float) -> str:
        return "infinite" if math.isinf(value) else f"{value:g}".replace("0.", ".")

    return [
        [name, *(cell(each[of]) for of in ("k", "rho", "stop_cv")), SOURCES[each["source"]],
         each["why"]]
        for name, each in load_numbers()["worlds"].items()
    ]  # fmt: skip


def test_the_worlds_on_the_page_are_those_of_the_data():
    assert rows(PAGE, "Worlds") == expected_worlds()


def expected_points() -> list[list[str]]:
    points = load_numbers()["points"]
    times = sorted({at[0] for kind in points.values() for at in kind["at"]})

    def offs(kind: str, at: float) -> str:
        found = sorted(off for each, off in points[kind]["at"] if each == at)
        return ", ".join(f"{off:+.2f}".replace("0.", ".").replace("-", "−") for off in found) or "–"

    return [[f"{at:g} of the line", offs("clear", at), offs("near", at)] for at in times]


def test_the_points_on_the_page_are_those_of_the_data():
    assert rows(PAGE, "The rule for errors") == expected_points()
    text, limits = plain("The rule for errors"), load_numbers()["limits"]
    clear, near = (len(load_numbers()["points"][kind]["at"]) for kind in ("clear", "near"))
    assert f"at most {limits['clear']['value']:g} percentage point at {clear} clear" in text
    assert f"{limits['near']['value']:g} at {near} near" in text


@pytest.mark.parametrize(("heading", "group"), [("The spread of fields", "fields"),
                                                ("Minutes", "minutes")])  # fmt: skip
def test_the_numbers_of_fields_and_minutes_on_the_page_are_those_of_the_data(heading, group):
    assert rows(PAGE, heading) == expected_numbers(group)


def expected_numbers(group: str) -> list[list[str]]:
    return [
        [f"`{name}`", f"{each['value']:g} {each['unit']}", SOURCES[each["source"]], each["why"]]
        for name, each in load_numbers()[group].items()
    ]


# What the plans save


def minutes_told(cost: Cost) -> str:
    return f"{cost.minutes:.1f} ({short(cost.minutes / cost.full_minutes)})"


def expected_saving() -> list[list[str]]:
    told = []
    for (words, ways), shelved in STATED_DESIGNS.items():
        costs = [design_cost(shelved, WEEK, A_PLANT, acres) for acres in ACRES]
        figures, middle = shelved.figures[costs[1].row], costs[1]
        told.append(
            [words, ways, ", ".join(short(each) for each in figures.ends[:-1]),
             f"{figures.plants:.0f}", *map(minutes_told, costs),
             short(middle.clear_minutes / middle.full_minutes),
             f"{figures.worst_clear:.2f}, {figures.worst_near:.2f}"]
        )  # fmt: skip
    return told


def test_the_table_of_what_is_saved_is_that_of_the_plans():
    assert rows(PAGE, "What is saved") == expected_saving()


def test_the_minutes_of_the_full_walk_on_the_page_are_those_of_the_code():
    text = plain("What is saved")
    for squares_on, words in ((EVERY, "every plant"), (FIRST, "40 plants")):
        found = [design_cost(design(HOLD, squares_on, TWO_LOOPS), WEEK, A_PLANT, acres).full_minutes
                 for acres in ACRES]  # fmt: skip
        told = "{:.1f}, {:.1f} and {:.1f}".format(*found)
        assert f"with squares on {words} {told}" in text


def expected_by_squares() -> list[list[str]]:
    told = []
    for (words, ways), shelved in STATED_DESIGNS.items():
        costs = [design_cost(shelved, WEEK, squares, 60) for squares in (2, 3, 5)]
        told.append([words, ways, *(short(each.minutes / each.full_minutes, 3) for each in costs)])
    return told


def test_the_table_by_squares_a_plant_is_that_of_the_plans():
    assert rows(PAGE, "More squares, or fewer") == expected_by_squares()


def expected_elsewhere() -> list[list[str]]:
    told = []
    for case in cases():
        asked = asks(case.question)
        for shelved in designs(case.question):
            plan = shelved.plan
            if plan.loops != TWO_LOOPS or plan.squares_on is FIRST or plan.stopping is EITHER:
                continue
            costs = [
                design_cost(next(each for each in designs(case.question)
                                 if each.plan.loops == loops and each.plan.stopping is stopping
                                 and each.plan.squares_on is plan.squares_on),
                            case.week, A_PLANT, 60)
                for loops in (TWO_LOOPS, THREE_LOOPS) for stopping in (HOLD, EITHER)
            ]  # fmt: skip
            told.append([asked, *(short(each.minutes / each.full_minutes) for each in costs)])
    return told


def test_the_table_of_other_lines_is_that_of_the_plans():
    assert rows(PAGE, "Other lines and floors") == expected_elsewhere()


# Errors


def expected_errors() -> list[list[str]]:
    outside = World("outside: *k* .3, ρ .2, stops .5", 0.3, 0.2, 0.5)
    told = []
    for words, squares_on in (("first loop", FIRST), ("every plant", EVERY)):
        shelved = design(EITHER, squares_on, TWO_LOOPS)
        row = nearest_row(shelved, 120)
        limits = [look.rows[row] for look in shelved.plan.looks]
        for world in (*WORLDS, outside):
            clear, near = worst_errors(course_of(shelved.plan, row), limits, world)
            worst, density, share = worst_on_grid(shelved, row, world)
            at = f"{100 * density:.3g} per 100, set {short(1 - share)}"
            told.append([words, world.name, f"{clear:.2f}", f"{near:.2f}", f"{worst:.1f}", at])
    return told


def test_the_table_of_errors_is_that_of_the_plan():
    assert rows(PAGE, "How far errors rise") == expected_errors()
    text = plain("How far errors rise")
    assert f"{len(TIMES_LINE)} × {len(OFF_FLOOR)}" in text


def expected_bounds() -> list[list[str]]:
    told = []
    for (words, ways), shelved in STATED_DESIGNS.items():
        if shelved.plan.loops != TWO_LOOPS:
            continue
        cost = design_cost(shelved, WEEK, A_PLANT, 60)
        most = most_ends(course_of(shelved.plan, cost.row), shelved.plan.stopping)
        least = most * cost.by_look[0] + (1 - most) * cost.by_look[1]
        told.append([words, ways, short(shelved.figures[cost.row].ends[0], 3), short(most, 3),
                     short(cost.minutes / least, 3)])  # fmt: skip
    return told


def test_the_table_of_bounds_is_that_of_the_linear_programme():
    assert rows(PAGE, "How near to the best") == expected_bounds()


def test_the_plans_that_nobody_walks_need_as_many_plants_as_the_page_says():
    text = plain("The yardstick that nobody walks")
    plants = re.search(r"need (\d+\.\d) plants on average .+? and (\d+\.\d) where", text)
    assert plants
    for told, limits in zip(plants.groups(), (NOMINAL_LIMITS, ROBUST_LIMITS), strict=True):
        assert float(told) == pytest.approx(expected_plants(limits), abs=0.06)


def test_what_was_aimed_at_and_found_is_that_of_the_plans():
    told = rows(DOCS / "benchmarks.md", "Stop plans")
    for goal, (_, most, found, verdict) in zip(GOALS, told[: len(GOALS)], strict=True):
        cost = goal_cost(goal)
        share = (cost.clear_minutes if goal.clear else cost.minutes) / cost.full_minutes
        assert float(most) == goal.most
        assert found == short(share, 4)
        assert verdict.startswith("met" if share <= goal.most else "missed")
    figures = [row for each in designs(STATED) for row in each.figures]
    worst = max(row.worst_clear for row in figures), max(row.worst_near for row in figures)
    assert [row[2] for row in told[len(GOALS) :][:2]] == [f"{each:.3f}" for each in worst]


# A field where nothing is saved, and what an early end does to the reading


def test_where_nothing_is_saved_the_page_says_by_how_much():
    text = plain("When nothing is saved")
    shelved, row, course = drawn(HOLD)
    cost = design_cost(shelved, WEEK, A_PLANT, 60)
    longest = cost.by_look[-1] - cost.full_minutes
    assert f"{longest:.1f} minutes more than the full walk in one tour" in text
    even = (cost.by_look[1] - cost.full_minutes) / (cost.by_look[1] - cost.by_look[0])
    assert f"more than {round(100 * even)} of 100" in text
    assert len(course.plants) == 2
    assert row == cost.row


@pytest.mark.parametrize(("line", "told"), [(10, "only if none is found"), (15, "with 1 or none")])
def test_by_a_low_line_few_insects_end_a_walk(line, told):
    shelved = shelved_for(Question(Fraction(line)), HOLD, SquaresOn.NONE)[0]
    low = shelved.plan.looks[0].rows[0].insects_low
    assert ("only if none is found", "with 1 or none")[low] == told
    assert told in plain("When nothing is saved")


def reading_of(insects: int, plants: int) -> Reading:
    """Read a walk whose insects sit on a plant each, shared out over the quarters."""
    plant = np.arange(plants)
    quadrant = plant // (plants // 4)
    counts = np.zeros((plants, len(COUNTS)), np.int64)
    for quarter in range(4):
        found = insects // 4 + (quarter < insects % 4)
        counts[np.flatnonzero(quadrant == quarter)[:found], 0] = 1
    nothing, yes = np.zeros(plants, np.int64), np.ones(plants, np.bool_)
    made = PlantRows(
        walk=nothing, quadrant=quadrant, stop=nothing, plant=plant + 1, counts=counts,
        insects_looked=yes, squares_looked=~yes, sweeps=nothing, skipped=~yes, scout=nothing,
        day=np.full(plants, DAY.toordinal()),
    )  # fmt: skip
    return take_reading(WalkTable((WalkHead("Home 40", DAY),), made, ("",), {}).walk(0))


def expected_readings() -> list[list[str]]:
    told = []
    for insects, plants in ((4, 40), (10, 100), (8, 40), (20, 100)):
        low, high = reading_of(insects, plants).density_odds.interval(0.95)
        told.append([f"{insects} on {plants}", f"{100 * insects / plants:.0f}",
                     f"{100 * low:.0f} to {100 * high:.0f}"])  # fmt: skip
    return told


def test_the_table_of_readings_is_that_of_the_code():
    assert rows(PAGE, "What an early end does to the reading") == expected_readings()


def drift(density: float, share: float) -> float:
    """Give the mean reading of insects on a walk that may end early. [insects per 100]"""
    shelved, row, course = drawn(HOLD)
    fields = columns(course, (NOMINAL,), np.array([density]), np.array([share]))
    held, _ = sides(course, shelved.plan.looks[0].rows[row])
    ends = (fields.first()[0] * held).sum(axis=1)
    every = np.arange(len(ends))
    whole = stats.nbinom.pmf(every, 40, 1 / (1 + density))
    on = whole - ends
    return 100 * float((ends * every / 40 + on * (every + 60 * density) / 100).sum())


def test_the_drift_of_the_reading_on_the_page_is_that_of_the_code():
    text = plain("What an early end does to the reading")
    for true, told in re.findall(
        r"with (\d+) per 100 and set \.84 reads (\d+\.\d) on average", text
    ):
        assert float(told) == pytest.approx(drift(int(true) / 100, 0.16), abs=0.06)


# The example on paper


@cache
def example() -> tuple[Course, float, float]:
    return drawn()[2], 0.20, 0.16


def test_the_counts_of_the_example_end_as_the_page_says():
    plan = drawn()[0].plan
    words = {"hold": "ends, not to treat", "treat": "ends, to treat", "go-on": "goes on"}
    for insects, lost, _, told in rows(PAGE, "At the gate"):
        assert words[plan.looks[0].side(int(insects), int(lost), 118)] == told


def test_the_limits_of_the_example_are_those_of_the_plan():
    text, look = plain("At the gate"), drawn()[0].plan.looks[0]
    row = look.row_for(118)
    assert (f"Not to treat: {row.insects_low} insects or fewer, {row.lost_low} lost or"
            f" fewer, or {row.sum_low} together") in text  # fmt: skip
    assert f"To treat: {row.insects_high} insects and {row.lost_high} lost" in text


LIMITS = ("insects_low", "lost_low", "sum_low", "insects_high", "lost_high")


def expected_between() -> list[list[str]]:
    look = drawn()[0].plan.looks[0]
    low, here, high = ([getattr(look.row_for(n), name) for name in LIMITS]
                       for n in (110, 118, 120))  # fmt: skip
    line = [first + (last - first) * 8 / 10 for first, last in zip(low, high, strict=True)]
    assert here == [*map(math.floor, line[:3]), *map(math.ceil, line[3:])]
    told = {"110, a row": low, "118, on the line": line, "118, rounded": here, "120, a row": high}
    return [[what, *(f"{each:g}" for each in limits)] for what, limits in told.items()]


def test_the_limits_between_two_rows_are_those_of_the_plan():
    assert rows(PAGE, "Between two rows") == expected_between()


BLASTED_10 = Question(Fraction(25), SquareBar(Fraction(1, 10), Lost.BLASTED))
FLOOR_90, FLOOR_75 = (Question(Fraction(25), SquareBar(Fraction(1, n))) for n in (10, 4))

# Where errors between rows are the highest, and which sentence of the page tells them.
WORST_BETWEEN = (
    ("at most {} points at clear points", on_the_line, "clear", BLASTED_10, EVERY, THREE_LOOPS, 89),
    ("and {} at near ones, over every", on_the_line, "near", FLOOR_75, EVERY, TWO_LOOPS, 230),
    ("lie up to {} at clear points", on_paper, "clear", FLOOR_75, EVERY, THREE_LOOPS, 111),
    ("and {} at near ones.", on_paper, "near", FLOOR_75, EVERY, THREE_LOOPS, 111),
)


@pytest.mark.parametrize(
    ("words", "read", "kind", "question", "squares_on", "loops", "squares"), WORST_BETWEEN
)
def test_the_errors_between_rows_on_the_page_are_those_of_the_plans(
    words, read, kind, question, squares_on, loops, squares
):
    found = shelved_for(question, EITHER, squares_on)
    plan = next(each.plan for each in found if each.plan.loops == loops)
    course = walked(question, loops, squares_on, squares)
    errors = (worst_errors(course, limits_of(plan, course, read), world) for world in WORLDS)
    worst = max(clear if kind == "clear" else near for clear, near in errors)
    assert words.format(f"{worst:.2f}") in plain("Between two rows")


def expected_paper() -> list[list[str]]:
    """Work the table of the example out by the formulas of the page alone."""
    _, density, _ = example()
    shelved, row, course = drawn()
    limits = shelved.plan.looks[0].rows[row]
    first = stats.nbinom(40, 1 / (1 + density))
    later = stats.nbinom(60, 1 / (1 + density))
    told = []
    for insects in range(limits.insects_low + 1, limits.insects_high):
        here, reach = first.pmf(insects), later.sf(course.treat_insects - insects - 1)
        told.append([str(insects), short(here, 4), str(course.treat_insects - insects),
                     short(reach, 4), short(here * reach, 4)])  # fmt: skip
    return told


def paper_chances() -> tuple[float, float, float, float]:
    """Give both tails of the example, and the chance of treat with and without the plan."""
    _, density, share = example()
    shelved, row, course = drawn()
    limits = shelved.plan.looks[0].rows[row]
    past = float(stats.binom.sf(18, 120, share))
    high = float(stats.nbinom.sf(limits.insects_high - 1, 40, 1 / (1 + density)))
    fields = columns(course, (NOMINAL,), np.array([density]), np.array([share]))
    return past, high, float(fields.full_walk()[0]), float(
        follow(fields, [limits]).says_treat[0])  # fmt: skip


def test_the_example_on_paper_is_that_of_the_formulas_and_of_the_code():
    assert rows(PAGE, "The chances by hand") == expected_paper()
    past, high, full, plan = paper_chances()
    later = sum(float(row[4]) for row in expected_paper())
    text = plain("The chances by hand")
    told = [float(each) for each in re.findall(r"= (\.\d{4})\b", text)]
    assert told == pytest.approx([past, high, later, past * (high + later), full], abs=1.01e-4)
    # the page leaves the corner of the sum out, and says how little it is
    assert past * (high + later) - plan == pytest.approx(
        float(re.search(r"takes another (\.\d{4})", text)[1]), abs=1.01e-4)  # fmt: skip


# Minutes and pictures


def test_the_minutes_on_paper_are_those_of_the_code():
    text = plain("Minutes")
    _, _, course = drawn()
    whole = course_of(design(HOLD, EVERY, TWO_LOOPS).plan, 0)
    way = square_way(60)
    metres = [round(each) for each in (*way.loops[TWO_LOOPS], way.tour)]
    assert "{:,} m, the second {:,} m and the one tour {:,} m".format(*metres) in text
    spent = minutes_by_look(whole, way.loops[TWO_LOOPS])
    assert f"{spent[0]:.1f} minutes after the first loop" in text
    assert f"{spent[1]:.1f} after both" in text
    assert f"{full_walk_minutes(whole, way.tour):.1f} for the full walk" in text
    assert course.question.line == Fraction(25)


@pytest.mark.parametrize("name", sorted(plan_pictures.PICTURES))
def test_the_pictures_are_those_that_the_tool_draws(name):
    kept = (DOCS / "gallery" / f"{name}.svg").read_text(encoding="utf-8")
    assert kept == plan_pictures.PICTURES[name]() + "\n"
    assert f"(../gallery/{name}.svg)" in PAGE.read_text(encoding="utf-8")
