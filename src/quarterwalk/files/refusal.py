"""A file refused as a whole, with what was found in it and what was expected."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NoReturn

from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput

GEOMETRY = "geometry"
"""What errors call the column of a feature's shape."""

DAMAGED = "a damaged one"
"""What errors call a file that can't be unpacked: why, only its library would understand."""


def refuse(
    file: str, value: str, expected: str, hint: str = "", *, row: int | None = None
) -> NoReturn:
    """Refuse a file for one thing that is wrong with it, or with the shape in one row."""
    column = None if row is None else GEOMETRY
    raise RefusedInput([Problem(file, row, column, value, expected, hint)])


def refuse_if_any(problems: Sequence[Problem]) -> None:
    """Refuse a file for all that is wrong with it; the first are told, the rest counted."""
    if problems:
        raise RefusedInput(problems[:MOST_PROBLEMS], max(0, len(problems) - MOST_PROBLEMS))
