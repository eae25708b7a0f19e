"""How a refused input looks on a screen: like problems of one column told together."""

from __future__ import annotations

from collections import Counter

from quarterwalk.errors import Problem, RefusedInput

# Who has seen three like problems knows what is wrong with the column. A rule of this
# project. [count]
_TOLD = 3

_Kind = tuple[str, str, str]


def refusal_lines(error: RefusedInput) -> list[str]:
    """Give a line a problem; of many like ones in a column the first, and how many more.

    Parameters
    ----------
    error : RefusedInput
        What was refused.

    Returns
    -------
    list of str
        `str` of the error tells every problem that it holds.
    """
    of_kind = Counter(kind for each in error.problems if (kind := _kind(each)))
    so_far: Counter[_Kind] = Counter()
    lines = []
    for problem in error.problems:
        kind = _kind(problem)
        if kind is not None:
            so_far[kind] += 1
            # the count of one left out would be no shorter than the one
            if of_kind[kind] > _TOLD + 1 and so_far[kind] > _TOLD:
                continue
        lines.append(problem.message)
    for (file, column, _), count in of_kind.items():
        if count > _TOLD + 1:
            lines.append(f"{file}, column {column}: and {count - _TOLD} more cells like these.")
    if error.more:
        lines.append(f"{error.problems[0].file}: and {error.more} more like these.")
    return lines


def _kind(problem: Problem) -> _Kind | None:
    """Give file, column and what was expected; None for what is wrong with no cell."""
    if problem.row is None or problem.column is None:
        return None
    return problem.file, problem.column, problem.expected
