"""Everything that can be wrong with what a user gives us.

::

    QuarterwalkError
    ├── UsageError            the command line, or an argument, is wrong      (exit 2)
    │   ├── UnknownGuideline  no guideline of that name
    │   ├── LineOutsideRange  a line outside the range that the guideline publishes
    │   └── MissingExtra      a part that is installed on wish is not there
    └── RefusedInput          a file, or a value in it, was refused           (exit 3)

A `RefusedInput` carries `Problem` records, so that nobody has to parse its
message. Facts are passed to ``super().__init__`` and the text is built in
``__str__``, so that errors survive pickling between processes.
"""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import dataclass

MOST_PROBLEMS = 50
"""How many problems of one file are told at once; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in one place.

    `row` counts as a spreadsheet shows it (the header is row 1); in a text file
    such as a guideline it is the line. `column` is the column's or key's name.
    """

    file: str
    row: int | None
    column: str | None
    value: str
    expected: str
    hint: str = ""

    @property
    def message(self) -> str:
        """Say where, what was expected, what was found, and what to do."""
        where = self.file
        if self.row is not None:
            where += f" row {self.row}"
        if self.column:
            where += f", column {self.column}"
        text = f'{where}: must be {self.expected}, got "{shown(self.value)}".'
        return f"{text} {self.hint}" if self.hint else text

    def __str__(self) -> str:
        return self.message


def shown(value: str, *, most: int = 60) -> str:
    """Make a value fit to print on one line: control characters visible, long text cut."""
    flat = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in value[: most + 1])
    return flat[:most] + "…" if len(flat) > most else flat


class QuarterwalkError(Exception):
    """Any error that quarterwalk explains; the text is fit for the person who caused it."""


class UsageError(QuarterwalkError):
    """The command line or an argument is wrong."""


class UnknownGuideline(UsageError):
    """No guideline of that name is on the shelf."""

    def __init__(self, name: str, known: Sequence[str]) -> None:
        super().__init__(name, tuple(known))
        self.name = name
        self.known = tuple(known)

    def __str__(self) -> str:
        close = difflib.get_close_matches(self.name, self.known, n=1, cutoff=0.5)
        tail = f"Closest: {close[0]}." if close else f"Known: {', '.join(self.known)}."
        return f'no guideline named "{shown(self.name)}". {tail}'


class LineOutsideRange(UsageError):
    """A line was chosen that the guideline does not publish."""

    def __init__(self, guideline: str, line: str, allowed: str) -> None:
        super().__init__(guideline, line, allowed)
        self.guideline = guideline
        self.line = line
        self.allowed = allowed

    def __str__(self) -> str:
        return f"--line must be {self.allowed} for {self.guideline}, got {shown(self.line)}."


class MissingExtra(UsageError):
    """Something was asked for that needs a part which is installed on wish."""

    def __init__(self, extra: str, what: str) -> None:
        super().__init__(extra, what)
        self.extra = extra
        self.what = what

    def __str__(self) -> str:
        needed = f"{self.what} need the {self.extra} extra"
        return f"{needed}: pip install 'quarterwalk[{self.extra}]'"


class RefusedInput(QuarterwalkError):
    """An input was refused as a whole; nothing of it was taken.

    Parameters
    ----------
    problems : sequence of Problem
        What is wrong, in the order of the file; at most `MOST_PROBLEMS`.
    more : int
        How many problems were found beyond those. [count]
    """

    def __init__(self, problems: Sequence[Problem], more: int = 0) -> None:
        super().__init__(tuple(problems), more)
        self.problems = tuple(problems)
        self.more = more

    def __str__(self) -> str:
        lines = [p.message for p in self.problems]
        if self.more:
            lines.append(f"{self.problems[0].file}: and {self.more} more like these.")
        return "\n".join(lines)
