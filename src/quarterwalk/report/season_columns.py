"""Which columns the days of a season need: one without a word in it is left out."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.report.season_report import SeasonDay


def cells_of(day: SeasonDay) -> tuple[str, ...]:
    """Give a row of the days, in the order of the titles of its columns."""
    return day.event, day.likely, day.span, day.known, day.alone, day.code


def kept_columns(days: Sequence[SeasonDay]) -> tuple[int, ...]:
    """Give the places of the columns that hold something.

    Parameters
    ----------
    days : sequence of SeasonDay
        The rows.

    Returns
    -------
    tuple of int
        Event and likely day are always among them.
    """
    columns = zip(*map(cells_of, days), strict=True)
    return tuple(i for i, cells in enumerate(columns) if i < 2 or any(cells))
