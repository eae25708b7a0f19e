"""A column of text cells as codes into its few distinct values.

A walk table says "0" a million times. Each distinct text is read once; the rows hold
its code, so checks and values are array look-ups, and an error still knows its row.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Generic, Self, TypeVar

import numpy as np
import numpy.typing as npt

from quarterwalk.errors import Problem

Value = TypeVar("Value")
IntArray = npt.NDArray[np.int64]
BoolArray = npt.NDArray[np.bool_]


class Misread(ValueError):
    """A cell that can't be read: what was expected, and perhaps a hint."""

    def __init__(self, expected: str, hint: str = "") -> None:
        super().__init__(expected, hint)
        self.expected = expected
        self.hint = hint


class Unworked(str):
    """A cell of a workbook that shows an error, or holds a formula without its value."""

    __slots__ = ()

    def strip(self, chars: str | None = None, /) -> Self:
        """Give it as it is, so that it is known wherever cells are read."""
        return self


def read_cell(read: Callable[[str], Value], text: str) -> Value:
    """Read one cell; of a formula without its value, and of an error, say what it is.

    Parameters
    ----------
    read : callable
        Reads one stripped text, or raises `Misread`.
    text : str
        The stripped text.

    Returns
    -------
    object
        What `read` gives.

    Raises
    ------
    Misread
        If it can't be read, or is `Unworked`, also where any text would do.
    """
    try:
        value = read(text)
    except Misread as fault:
        raise Misread(fault.expected, _unworked_hint(text) or fault.hint) from None
    if text and isinstance(text, Unworked):
        raise Misread("a cell with a value", _unworked_hint(text))
    return value


def _unworked_hint(text: str) -> str:
    if text.startswith("="):
        return "A formula that was not worked out: open the table in a spreadsheet and save it."
    if isinstance(text, Unworked) and text.startswith("#"):
        return "A formula with an error: mend it, or clear the cell."
    return ""


class _Codes(dict[str, int]):
    """Give a text its code, a fresh one where it is met for the first time."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []

    def __missing__(self, text: str) -> int:
        code = self[text] = len(self.texts)
        self.texts.append(text)
        return code


class CodedColumn(Generic[Value]):
    """Cells of one column, gathered block by block.

    Parameters
    ----------
    name : str
        The column's name.
    read : callable
        Reads one stripped text, or raises `Misread`.
    """

    def __init__(self, name: str, read: Callable[[str], Value]) -> None:
        self.name = name
        self._read = read
        self._codes = _Codes()
        self._parts: list[IntArray] = []
        self.values: list[Value | None] = []
        self.faults: dict[int, Misread] = {}

    def add(self, cells: Iterable[str], count: int) -> None:
        """Take the cells of the next `count` rows."""
        self._parts.append(np.fromiter(map(self._codes.__getitem__, cells), np.int64, count))
        for text in self._codes.texts[len(self.values) :]:
            try:
                self.values.append(read_cell(self._read, text.strip()))
            except Misread as fault:
                self.faults[len(self.values)] = fault
                self.values.append(None)

    @property
    def codes(self) -> IntArray:
        """Codes of all rows so far, shape (rows,)."""
        if len(self._parts) != 1:
            self._parts = [np.concatenate([np.zeros(0, np.int64), *self._parts])]
        return self._parts[0]

    def given(self) -> BoolArray:
        """Tell the rows whose cell is not blank, shape (rows,)."""
        given: BoolArray = self.take(lambda value: value != "") == 1
        return given

    def take(self, of: Callable[[Value], int], default: int = 0) -> IntArray:
        """Turn each row's value into a whole number; `default` where it can't be read."""
        each = [default if value is None else of(value) for value in self.values]
        return np.array(each or [default], np.int64)[self.codes]

    def text(self, code: int) -> str:
        """Give the cell as it stands in the file."""
        return self._codes.texts[code]

    def bad_rows(self) -> IntArray:
        """Indices of the rows whose cell can't be read, ascending."""
        if not self.faults:
            return np.zeros(0, np.int64)
        bad = np.zeros(len(self.values), np.bool_)
        bad[list(self.faults)] = True
        return np.flatnonzero(bad[self.codes])

    def problem(self, file: str, row: int, index: int) -> Problem:
        """Say what is wrong with the cell of row index `index`, seen as row `row`."""
        code = int(self.codes[index])
        fault = self.faults[code]
        return Problem(file, row, self.name, self.text(code), fault.expected, fault.hint)
