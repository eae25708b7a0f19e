"""Draws the pictures of the page "When a walk may end early": ``python tools/plan_pictures.py``.

They are worked out from a packaged plan, not simulated, and come out the same each time. Greys
carry what is drawn, and every cell has its number, so they read on a grey printer too.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from pathlib import Path
from xml.sax.saxutils import escape

import numpy as np

from quarterwalk.plan import (
    TWO_LOOPS,
    Question,
    Row,
    Shelved,
    Side,
    SquareBar,
    SquaresOn,
    Stopping,
    Way,
    cost_of,
    course_of,
    nearest_row,
    outcomes,
    shelved_for,
)
from quarterwalk.plan.columns import columns
from quarterwalk.plan.minutes import square_field_loops, square_field_metres
from quarterwalk.plan.worlds import NOMINAL
from said import say

GALLERY = Path(__file__).resolve().parents[1] / "docs" / "gallery"

QUESTION = Question(Fraction(25), SquareBar(Fraction(15, 100)))
"""Line 25 and floor .85."""

SQUARES = 120
ACRES = 60
FULL_STOPS = 20

PER_100 = (5, 10, 15, 18, 20, 23, 26, 29, 33, 40, 50, 70)
"""Insects per 100 plants of the cells, from left to right."""

SETS = (95, 92, 90, 88, 86, 84, 82, 80, 76, 70)
"""Square set of the cells in per cent, from top to bottom."""

# Sizes. [pixels]
_CELL_WIDE, _CELL_HIGH = 33, 24
_LEFT, _TOP, _GAP, _UNDER = 92, 58, 34, 50
_COUNT, _INSECTS, _LOST = 16, 22, 30

# Greys. On the darker ones letters are white.
_INK, _PAPER, _RULE = "#111111", "#FFFFFF", "#666666"
_DARK = 0.55
_FILLS = {Side.HOLD: "#DDDDDD", Side.GO_ON: _PAPER, Side.TREAT: "#555555"}


@dataclass(frozen=True, slots=True)
class Panel:
    """A table of cells: what stands over it, and for each cell a text and a darkness."""

    heading: str
    texts: list[list[str]]
    dark: list[list[float]]
    framed: list[list[bool]]


def plan_for(
    stopping: Stopping, squares_on: SquaresOn = SquaresOn.FIRST_LOOP
) -> tuple[Shelved, int]:
    """Give the plan that is drawn, and its row."""
    found = shelved_for(QUESTION, stopping, squares_on)
    shelved = next(each for each in found if each.plan.loops == TWO_LOOPS)
    return shelved, nearest_row(shelved, SQUARES)


def cells() -> tuple[np.ndarray, np.ndarray]:
    """Give the true values of all cells, row by row. [count per plant, lost share]"""
    density = np.tile(np.array(PER_100) / 100.0, len(SETS))
    return density, np.repeat(1.0 - np.array(SETS) / 100.0, len(PER_100))


def table(values: np.ndarray) -> list[list[float]]:
    """Give one number a cell as rows of numbers."""
    return [[float(each) for each in row] for row in values.reshape(len(SETS), len(PER_100))]


def chance_panel(heading: str, chance: np.ndarray) -> Panel:
    """Give the chance to be told to treat, in per cent; the darker the likelier."""
    rows = table(chance)
    texts = [[f"{100 * each:.0f}" for each in row] for row in rows]
    return Panel(heading, texts, [[0.85 * each for each in row] for row in rows],
                 [[False] * len(row) for row in rows])  # fmt: skip


def chances() -> str:
    """Draw how often the full walk and the plan say treat."""
    shelved, row = plan_for(Stopping.EITHER_WAY)
    density, share = cells()
    fields = columns(course_of(shelved.plan, row), (NOMINAL,), density, share)
    says = outcomes(shelved.plan, row, density, share).says_treat
    panels = (
        chance_panel("The full walk of 100 plants", fields.full_walk()),
        chance_panel("The walk that may end after 40 plants", says),
    )
    return panelled("Chance of the answer treat, in per cent, by a field's true values", panels)


def minutes_panel(heading: str, stopping: Stopping) -> tuple[Panel, float]:
    """Give the mean minutes in each cell, and those of the full walk."""
    shelved, row = plan_for(stopping)
    course = course_of(shelved.plan, row)
    way = Way({TWO_LOOPS: square_field_loops(ACRES, course)},
              square_field_metres(ACRES, FULL_STOPS))  # fmt: skip
    cost = cost_of(shelved, way, 2, SQUARES / course.plants[0])
    mean = outcomes(shelved.plan, row, *cells()).mean(cost.by_look)
    least, most = cost.by_look
    rows = table(mean)
    return Panel(
        heading,
        [[f"{each:.0f}" for each in row] for row in rows],
        [[0.8 * (each - least) / (most - least) for each in row] for row in rows],
        [[each > cost.full_minutes for each in row] for row in rows],
    ), cost.full_minutes


def minutes() -> str:
    """Draw the mean minutes on sixty acres."""
    hold, full = minutes_panel("Ends early only not to treat", Stopping.HOLD_ONLY)
    either, _ = minutes_panel("Ends early either way", Stopping.EITHER_WAY)
    title = (f"Mean minutes on {ACRES} acres, by a field's true values. The full walk takes"
             f" {full:.1f}; framed: more than that")  # fmt: skip
    return panelled(title, (hold, either))


def panelled(title: str, panels: Sequence[Panel]) -> str:
    """Draw tables side by side."""
    wide, high = _CELL_WIDE * len(PER_100), _CELL_HIGH * len(SETS)
    width = _LEFT + len(panels) * (wide + _GAP)
    height = _TOP + high + _UNDER
    parts = [words(_LEFT, 20, title, size=15, weight="bold")]
    for number, panel in enumerate(panels):
        left = _LEFT + number * (wide + _GAP)
        parts.append(words(left, 46, panel.heading, size=13))
        parts += panel_parts(panel, left)
        parts += [
            words(left + (i + 0.5) * _CELL_WIDE, _TOP + high + 16, str(each), middle=True)
            for i, each in enumerate(PER_100)
        ]
        parts.append(words(left + wide / 2, _TOP + high + 36, "insects per 100 plants",
                           middle=True, size=13))  # fmt: skip
    parts += [
        words(_LEFT - 8, _TOP + (i + 0.5) * _CELL_HIGH + 4, f".{each}", end=True)
        for i, each in enumerate(SETS)
    ]
    parts.append(words(6, 46, "square set", size=13))
    return drawing(title, width, height, parts)


def panel_parts(panel: Panel, left: float) -> Iterator[str]:
    """Draw the cells of one table, the line and the floor."""
    for i, row in enumerate(panel.texts):
        for j, text in enumerate(row):
            dark = panel.dark[i][j]
            x, y = left + j * _CELL_WIDE, _TOP + i * _CELL_HIGH
            yield box(x, y, _CELL_WIDE, _CELL_HIGH, grey(dark))
            if panel.framed[i][j]:
                yield box(x + 1.5, y + 1.5, _CELL_WIDE - 3, _CELL_HIGH - 3, "none", stroke=1.5)
            yield words(x + _CELL_WIDE / 2, y + _CELL_HIGH / 2 + 4, text, middle=True,
                        ink=_PAPER if dark > _DARK else _INK)  # fmt: skip
    wide, high = _CELL_WIDE * len(PER_100), _CELL_HIGH * len(SETS)
    line = left + _CELL_WIDE * sum(each < float(QUESTION.line) for each in PER_100)
    floor = _TOP + _CELL_HIGH * sum(each > 85 for each in SETS)
    yield stroke(line, _TOP, line, _TOP + high)
    yield stroke(left, floor, left + wide, floor)


def limits() -> str:
    """Draw the counts at which walks end after the first loop, by where squares are counted."""
    title = f"Where a walk ends after 40 plants and {SQUARES} squares"
    parts = [words(_LEFT, 20, title, size=15, weight="bold"), words(6, 46, "squares lost", size=13)]
    wide, high = _COUNT * _INSECTS, _COUNT * _LOST
    places = (
        ("Squares on every plant", SquaresOn.EVERY_PLANT),
        ("Squares in the first loop only", SquaresOn.FIRST_LOOP),
    )
    for number, (heading, squares_on) in enumerate(places):
        left = _LEFT + number * (wide + 60)
        shelved, row = plan_for(Stopping.EITHER_WAY, squares_on)
        parts.append(words(left, 46, heading, size=13))
        parts += limit_parts(shelved, row, left)
        parts += limit_words(shelved.plan.looks[0].rows[row], left, _TOP + high + 62)
    return drawing(title, _LEFT + 2 * (wide + 60), _TOP + high + 190, parts)


def limit_parts(shelved: Shelved, number: int, left: float) -> Iterator[str]:
    """Draw all counts of a look, the line and the floor."""
    look, course = shelved.plan.looks[0], course_of(shelved.plan, number)
    squares = look.rows[number].squares
    wide, under = _COUNT * _INSECTS, _TOP + _COUNT * _LOST
    for y in range(_LOST):
        sides = (look.side(x, y, squares) for x in range(_INSECTS))
        x = 0
        for side, run in groupby(sides):
            long = len(list(run))
            yield box(left + x * _COUNT, under - (y + 1) * _COUNT, long * _COUNT, _COUNT,
                      _FILLS[side], stroke=0)  # fmt: skip
            x += long
    for x in range(_INSECTS + 1):
        yield thin(left + x * _COUNT, _TOP, left + x * _COUNT, under)
    for y in range(_LOST + 1):
        yield thin(left, _TOP + y * _COUNT, left + wide, _TOP + y * _COUNT)
    for x in range(0, _INSECTS, 5):
        yield words(left + (x + 0.5) * _COUNT, under + 16, str(x), middle=True)
    for y in range(0, _LOST, 5):
        yield words(left - 8, under - (y + 0.5) * _COUNT + 4, str(y), end=True)
    yield words(left + wide / 2, under + 34, "insects found", middle=True, size=13)
    line = left + _COUNT * course.question.least_insects(course.plants[0])
    floor = under - _COUNT * course.question.least_lost(squares)
    yield stroke(line, _TOP, line, under)
    yield stroke(left, floor, left + wide, floor)


def limit_words(row: Row, left: float, top: float) -> Iterator[str]:
    """Write the limits in words."""
    told = (
        f"Light: ends, not to treat: {row.insects_low} insects or fewer,",
        f"or {row.lost_low} squares lost or fewer, or {row.sum_low} of both together or fewer",
        f"Dark: ends, to treat: {row.insects_high} insects or more,",
        f"and {row.lost_high} squares lost or more",
        "White: the walk goes on",
        "Dashed: the line and the floor",
    )
    for number, text in enumerate(told):
        yield words(left, top + 20 * number, text, size=13)


def drawing(title: str, width: float, height: float, parts: Sequence[str]) -> str:
    """Put a picture together, on white paper."""
    size = f'width="{number_text(width)}" height="{number_text(height)}"'
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img"'
            f' viewBox="0 0 {number_text(width)} {number_text(height)}"'
            ' font-family="sans-serif" font-size="12">',
            f"<title>{escape(title)}</title>",
            f'<rect width="100%" height="100%" fill="{_PAPER}"/>',
            *parts,
            "</svg>",
        ]
    )


def words(
    x: float,
    y: float,
    text: str,
    *,
    size: int = 12,
    weight: str = "normal",
    ink: str = _INK,
    middle: bool = False,
    end: bool = False,
) -> str:
    """Write a line of words."""
    anchor = ' text-anchor="middle"' if middle else ' text-anchor="end"' if end else ""
    given = "" if size == 12 else f' font-size="{size}"'
    given += "" if weight == "normal" else f' font-weight="{weight}"'
    at = f'x="{number_text(x)}" y="{number_text(y)}"'
    return f'<text {at} fill="{ink}"{anchor}{given}>{escape(text)}</text>'


def box(x: float, y: float, wide: float, high: float, fill: str, stroke: float = 0.5) -> str:
    """Draw a box with a thin edge."""
    size = f'width="{number_text(wide)}" height="{number_text(high)}"'
    edge = _INK if fill == "none" else _RULE
    at = f'x="{number_text(x)}" y="{number_text(y)}"'
    line = f' stroke="{edge}" stroke-width="{stroke}"' if stroke else ""
    return f'<rect {at} {size} fill="{fill}"{line}/>'


def thin(*ends: float) -> str:
    """Draw a thin line between counts."""
    return f'<line {line_ends(*ends)} stroke="{_RULE}" stroke-width="0.4"/>'


def stroke(*ends: float) -> str:
    """Draw a dashed line, white under black, so that it shows on any grey."""
    at = line_ends(*ends)
    return (
        f'<line {at} stroke="{_PAPER}" stroke-width="4"/>'
        f'<line {at} stroke="{_INK}" stroke-width="2" stroke-dasharray="7 4"/>'
    )


def line_ends(x1: float, y1: float, x2: float, y2: float) -> str:
    """Write where a line begins and ends."""
    places = (("x1", x1), ("y1", y1), ("x2", x2), ("y2", y2))
    return " ".join(f'{name}="{number_text(at)}"' for name, at in places)


def grey(dark: float) -> str:
    """Give a grey, from white at 0 to black at 1."""
    level = round(255 * (1.0 - min(max(dark, 0.0), 1.0)))
    return f"#{level:02X}{level:02X}{level:02X}"


def number_text(value: float) -> str:
    """Write a place on the drawing."""
    return f"{value:.1f}".removesuffix(".0")


PICTURES = {
    "early-end-chances": chances,
    "early-end-minutes": minutes,
    "early-end-limits": limits,
}


def main() -> int:
    """Draw all of them."""
    for name, draw in PICTURES.items():
        (GALLERY / f"{name}.svg").write_text(draw() + "\n", encoding="utf-8")
    say(f"{GALLERY.name} holds {', '.join(PICTURES)}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
