"""Cards of a demo field, and how a phone looks its counts up in one."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

from quarterwalk.card import Card, CardFor, make_card
from quarterwalk.crop import CropDates
from quarterwalk.demo import demo_fields
from quarterwalk.field import Layout, lay_out
from quarterwalk.guideline import load_guideline

Json = dict[str, Any]

ID = "k3f9m2q8"
ON = date(2026, 7, 1)
FIRST_SQUARE = date(2026, 6, 22)  # so that `ON` is day 9: week 2

INSECT_SIDES = ("few", "middle", "near", "over")
SQUARE_SIDES = ("fine", "under", "well-under")


@cache
def laid_out(number: int = 0, on: date = ON) -> Layout:
    """Lay a demo field out."""
    return lay_out(demo_fields()[number], on)


def about(guideline: str | None = "southern-high-plains", **choices: Any) -> CardFor:
    """Say what the card of one demo field is to be made from."""
    whole = CardFor(
        ID,
        laid_out(),
        None if guideline is None else load_guideline(guideline),
        CropDates(FIRST_SQUARE),
    )
    return replace(whole, **choices)


@cache
def plain_card(guideline: str | None) -> Card:
    """Make the card of one demo field, with nothing special about it."""
    return make_card(about(guideline))


def card(guideline: str | None = "southern-high-plains", **choices: Any) -> Card:
    """Make the card of one demo field."""
    return make_card(about(guideline, **choices)) if choices else plain_card(guideline)


def content(guideline: str | None = "southern-high-plains", **choices: Any) -> Json:
    """Read the card of one demo field, as a phone does."""
    read: Json = json.loads(card(guideline, **choices).bytes)
    return read


def rows_of(tables: list[Json], key: str, value: float) -> list[list[int]]:
    """Give the rows of the table for one line or floor."""
    (rows,) = [table["rows"] for table in tables if table[key] == value]
    return rows  # type: ignore[no-any-return]


def reached(row: list[int], count: int) -> int:
    """Count the limits of a row that a count has come to."""
    return sum(limit <= count for limit in row)


def insect_side(limits: Json, line: float, plants: int, insects: int) -> str:
    """Look up on which side of its line a count lies."""
    return INSECT_SIDES[reached(rows_of(limits["insects"], "line", line)[plants], insects)]


def square_side(limits: Json, floor: float | None, squares: int, gone: int) -> str:
    """Look up on which side the squares lie: lost ones, or blasted ones where it asks for them."""
    if limits["needs"] == "insects":
        return "not-asked"
    if squares < limits["thin_squares"]:
        return "not-readable"
    if limits["needs"] == "insects-and-blasted":
        return SQUARE_SIDES[reached(limits["blasted"]["rows"][squares], gone)]
    if floor is None:
        return "not-readable"
    return SQUARE_SIDES[reached(rows_of(limits["squares"], "floor", floor)[squares], gone)]


def lean(read: Json, week: int | None, counts: tuple[int, int, int, int]) -> str:
    """Look up what plants, insects, squares and lost (or blasted) ones come to in a week."""
    plants, insects, squares, gone = counts
    limits = read["limits"]
    (told,) = [each for each in read["weeks"] if each["week"] == week]
    side = insect_side(limits, told["line"], plants, insects)
    found: str = limits["verdicts"][side][square_side(limits, told["floor"], squares, gone)]
    return found
