"""Fields' seasons in one line each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quarterwalk.cli.screen import Ink, inked
from quarterwalk.cli.seasons import LeftOut, Season
from quarterwalk.crop import RANGE, CropClock, Event, outlook_of
from quarterwalk.errors import shown

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
# From here on a chance is told as nineteen in twenty. [fraction]
_SURE = 0.95
_HEADS = ("field", "stage", "first square", "first bloom")

# So much of a name keeps most lines within 80 columns. [characters]
_LONGEST_NAME = 20

_STRETCHES = {"before": "not squaring", "squaring": "squaring", "blooming": "blooming"}


def print_stages(seasons: Sequence[Season], left_out: Sequence[LeftOut] = ()) -> None:
    """Print one line a field, with what to do next.

    Parameters
    ----------
    seasons : sequence of Season
        The fields.
    left_out : sequence of LeftOut
        Those in whose season the day asked for does not lie.
    """
    rows, names = [_row(each) for each in seasons], [_name(each.name) for each in left_out]
    widths = [max(map(len, column)) for column in zip(_HEADS, *rows, strict=True)]
    widths[0] = max([widths[0], *map(len, names)])
    print(inked(_line(_HEADS, widths) + "  next", Ink.QUIET))
    for row, each in zip(rows, seasons, strict=True):
        print(f"{_line(row, widths)}  {_next(each)}")
    for name, out in zip(names, left_out, strict=True):
        print(f"{name:<{widths[0]}}  {out.why}")


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True))


def _name(name: str) -> str:
    return shown(name, most=_LONGEST_NAME)


def _row(season: Season) -> tuple[str, ...]:
    clock, outlook = season.clock, outlook_of(season.clock)
    square = clock.given.first_square or clock.odds[Event.FIRST_SQUARE].within(RANGE)
    return _name(season.name), _stage(clock), _span(square), _span(outlook.bloom)


def _stage(clock: CropClock) -> str:
    """Give the likeliest week of squaring, or else stretch of the season, with its chance.

    What is known, or as good as certain, has none; a bloom that nobody saw is never certain.
    """
    weeks = clock.weeks
    week = weeks.likely_week
    if week is not None:
        return f"week {week}, {_odds(weeks.weeks[week - 1])}"
    stretch, chance = weeks.stretches[0]
    sure = clock.bloom is not None if stretch == "blooming" else chance >= _SURE
    told = _STRETCHES[stretch]
    return told if sure else f"{told}, {_odds(chance)}"


def _odds(chance: float) -> str:
    return "19 in 20" if chance >= _SURE else f"{min(max(1, round(10 * chance)), 9)} in 10"


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


def _next(season: Season) -> str:
    """Say in a few words what to do next: the look that is due, or else what comes."""
    clock, look = season.clock, season.done.next_look
    if look is not None:
        return _look(look, clock.on)
    outlook, stage = outlook_of(clock), clock.weeks.likely
    begin, closest = outlook.begin, outlook.closest
    if stage == "blooming":
        return _blooming(clock)
    if stage == "squaring":
        if closest is not None and clock.on <= closest[1]:
            return f"watch closest to {_day(closest[1])}"
        return "walk until bloom"
    if begin is not None and clock.on < begin[0]:
        return f"begin to walk {_day(begin[0])}"
    return "walk now"


def _look(look: tuple[date, date], on: date) -> str:
    """Say when somebody comes back, also where that is late."""
    soonest, latest = look
    if on > latest:
        return f"look due since {_day(latest)}"
    if on == latest:
        return "look again today"
    return f"look again by {_day(latest)}" if on >= soonest else f"look again {_span(look)}"


def _blooming(clock: CropClock) -> str:
    """Say what a field asks for that most likely blooms: a flower, where nobody gave its bloom."""
    to_come = clock.given.bloom_to_come
    if to_come is not None:
        return f"leave weeds to {_day(to_come)}"
    if clock.bloom is None and clock.odds[Event.CUTOUT].by(clock.on) < 1 / 2:
        return "look for a flower"
    return "weeds may be cleared"
