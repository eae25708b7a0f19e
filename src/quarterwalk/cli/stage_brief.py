"""Fields' seasons in one line each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quarterwalk.cli.screen import Ink, inked
from quarterwalk.cli.seasons import Season
from quarterwalk.crop import RANGE, CropClock, Event, WeekOdds, outlook_of
from quarterwalk.errors import shown

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
# From here on a chance is told as nineteen in twenty. [fraction]
_SURE = 0.95
_HEADS = ("field", "stage", "first square", "first bloom")

# So much of a name keeps most lines within 80 columns. [characters]
_LONGEST_NAME = 20

_STRETCHES = {"before": "not squaring", "squaring": "squaring", "blooming": "blooming"}


def print_stages(seasons: Sequence[Season]) -> None:
    """Print one line a field, with what to do next.

    Parameters
    ----------
    seasons : sequence of Season
        The fields.
    """
    rows = [_row(each) for each in seasons]
    widths = [max(map(len, column)) for column in zip(_HEADS, *rows, strict=True)]
    print(inked(_line(_HEADS, widths) + "  next", Ink.QUIET))
    for row, each in zip(rows, seasons, strict=True):
        print(f"{_line(row, widths)}  {_next(each.clock)}")


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True))


def _row(season: Season) -> tuple[str, ...]:
    clock, outlook = season.clock, outlook_of(season.clock)
    square = clock.given.first_square or clock.odds[Event.FIRST_SQUARE].within(RANGE)
    return (
        shown(season.name, most=_LONGEST_NAME),
        _stage(clock.weeks),
        _span(square),
        _span(outlook.bloom),
    )


def _stage(weeks: WeekOdds) -> str:
    """Give the stretch of the season, or the likeliest week of squaring with its chance."""
    week = weeks.likely_week
    if week is None:
        return _STRETCHES[weeks.likely]
    best = weeks.weeks[week - 1]
    told = "19 in 20" if best >= _SURE else f"{min(max(1, round(10 * best)), 9)} in 10"
    return f"week {week}, {told}"


def _span(days: tuple[date, date] | None) -> str:
    if days is None:
        return "–"
    first, last = days
    if first == last:
        return _day(first)
    begin = f"{first.day}" if first.month == last.month else _day(first)
    return f"{begin}–{_day(last)}"


def _day(day: date) -> str:
    return f"{day.day} {_MONTHS[day.month - 1]}"


def _next(clock: CropClock) -> str:
    """Say in a few words what to do next."""
    outlook, stage = outlook_of(clock), clock.weeks.likely
    begin, closest, again = outlook.begin, outlook.closest, outlook.weeds_again
    if stage == "blooming":
        if again is not None and clock.on < again:
            return f"leave weeds to {_day(again)}"
        return "weeds may be cleared"
    if stage == "squaring":
        if closest is not None and clock.on <= closest[1]:
            return f"watch closest to {_day(closest[1])}"
        return "walk until bloom"
    if begin is not None and clock.on < begin[0]:
        return f"begin to walk {_day(begin[0])}"
    return "walk now"
