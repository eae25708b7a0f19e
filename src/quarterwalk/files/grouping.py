"""Which rows of a table make one walk.

A walk is one ``walk`` id where given, else one field on one date.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from quarterwalk.files.coded import CodedColumn
from quarterwalk.files.walk_columns import WalkColumns
from quarterwalk.walk import Method, Sites, WalkHead

IntArray = npt.NDArray[np.int64]
Value = TypeVar("Value")

# Codes are combined into one number a row; past this they are numbered afresh first.
_MOST_KEY = 1 << 62


@dataclass(frozen=True, slots=True)
class Groups:
    """The walk of each row, the first row of each walk, and the walks' heads."""

    walk: IntArray
    first: IntArray
    heads: tuple[WalkHead, ...]


def dense(column: CodedColumn[Value]) -> IntArray:
    """Number the distinct values of a column: texts that mean the same get one number.

    Parameters
    ----------
    column : CodedColumn
        The column.

    Returns
    -------
    int array, shape (rows,)
        From 0. [index]
    """
    numbers = {value: code for code, value in enumerate(dict.fromkeys(column.values))}
    table = np.array([numbers[value] for value in column.values] or [0], np.int64)
    return table[column.codes]


def combined(parts: Sequence[IntArray]) -> IntArray:
    """Combine several numbers a row into one that is equal where all of them are.

    Parameters
    ----------
    parts : sequence of int arrays, shape (rows,)
        Each from 0. [index]

    Returns
    -------
    int array, shape (rows,)
    """
    key, size = np.zeros(len(parts[0]), np.int64), 1
    for part in parts:
        width = int(part.max(initial=0)) + 1
        if size > _MOST_KEY // width:
            key = np.unique(key, return_inverse=True)[1].astype(np.int64)
            size = int(key.max(initial=0)) + 1
        key, size = key * width + part, size * width
    return key


def group_walks(columns: WalkColumns) -> Groups:
    """Gather the rows of a table into walks, in the order of their first rows.

    Parameters
    ----------
    columns : WalkColumns
        All cells readable.

    Returns
    -------
    Groups
    """
    ids = dense(columns.walk)
    given = columns.walk.given()
    none = np.zeros_like(ids)
    key = combined([
        ids,
        np.where(given, none, dense(columns.field) + 1),
        np.where(given, none, dense(columns.date) + 1),
    ])  # fmt: skip
    _, first, walk = np.unique(key, return_index=True, return_inverse=True)
    order = np.argsort(first)
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    walk = rank[walk].astype(np.int64)
    return Groups(walk, first[order], _heads(columns, walk, first[order]))


def _heads(columns: WalkColumns, walk: IntArray, first: IntArray) -> tuple[WalkHead, ...]:
    count = len(first)
    last_day = np.zeros(count, np.int64)
    np.maximum.at(last_day, walk, columns.date.take(lambda day: day.toordinal()))
    methods = _first_given(columns.method, walk, count)
    sites = _first_given(columns.sites, walk, count)
    plans = _first_given(columns.plan, walk, count)
    scouts = _scouts(columns.scout, walk, count)
    fields, field_codes = columns.field.values, columns.field.codes[first]
    ids, id_codes = columns.walk.values, columns.walk.codes[first]
    return tuple(
        WalkHead(
            field=fields[field_codes[i]] or "",
            date=date.fromordinal(int(last_day[i])),
            id=ids[id_codes[i]] or "",
            method=methods[i] or Method.TERMINAL,
            sites=sites[i] or Sites.ALL,
            plan=plans[i] or "",
            scouts=scouts[i],
        )
        for i in range(count)
    )


def _first_given(column: CodedColumn[Value], walk: IntArray, count: int) -> list[Value | None]:
    """Give each walk's first value that is not blank."""
    given = np.flatnonzero(column.given())
    found: list[Value | None] = [None] * count
    if len(given):
        walks, first = np.unique(walk[given], return_index=True)
        codes = column.codes
        for index, row in zip(walks, given[first], strict=True):
            found[index] = column.values[codes[row]]
    return found


def _scouts(column: CodedColumn[str], walk: IntArray, count: int) -> list[tuple[str, ...]]:
    """Give each walk's scouts in the order of their first plants."""
    pairs, first = np.unique(combined([walk, column.codes]), return_index=True)
    names: list[dict[str, None]] = [{} for _ in range(count)]
    codes = column.codes
    for row in np.sort(first):
        if name := column.values[codes[row]]:
            names[walk[row]][name] = None
    return [tuple(found) for found in names]
