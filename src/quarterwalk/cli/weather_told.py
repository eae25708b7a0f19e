"""How a station's weather looks on a screen: place, gaps, what was found wrong, heat by week."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np

from quarterwalk.call.figures import listed
from quarterwalk.cli.lengths import length_words
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.files.weather_findings import WeatherFinding
from quarterwalk.files.weather_json import HeatTold, StationTold
from quarterwalk.guideline import load_routine
from quarterwalk.picture.season_words import date_word
from quarterwalk.weather.daily import DayMark
from quarterwalk.weather.station import Station

_HOW = {
    DayMark.NEIGHBOUR: "from another station",
    DayMark.BETWEEN: "on a straight line between the days around",
    DayMark.OTHER_YEARS: "with the mean of the same days in other years",
}
_METRES = 1000.0  # [m/km]


def print_station(told: StationTold, findings: Sequence[WeatherFinding]) -> None:
    """Print what one station measured, and its heat units.

    Parameters
    ----------
    told : StationTold
        The station.
    findings : sequence of WeatherFinding
        What was found wrong in its days.
    """
    print(inked(_named(told.measured.station), Ink.HEAD))
    for sentence in (*_place(told), _days(told), *_filled(told)):
        say(sentence, indent=2)
    for sentence in _found(told, findings):
        say(sentence, indent=2, hanging=4)
    say()
    _print_heat(told.heat)
    say()


def _named(station: Station) -> str:
    return f"{station.name} ({station.id})" if station.name else station.id


def _place(told: StationTold) -> Iterator[str]:
    place = told.measured.station.place
    if place is None:
        yield "Where it stands is not told."
        return
    where = f"At {_degrees(place[1], 'NS')}, {_degrees(place[0], 'EW')}"
    if told.distance_km is None:
        yield f"{where}."
    else:
        away = length_words(told.distance_km * _METRES, metric=False)
        yield f"{where}, {away} from the place asked for."


def _degrees(value: float, sides: str) -> str:
    return f"{abs(value):.2f}° {sides[value < 0]}"


def _long(day: date) -> str:
    return f"{date_word(day)} {day.year}"


def _span(first: date, last: date) -> str:
    return _long(first) if first == last else f"{_long(first)} to {_long(last)}"


def _days(told: StationTold) -> str:
    days = told.measured
    lacking = int(np.count_nonzero(days.missing))
    lack = {0: "none of them is missing", 1: "1 of them is missing"}
    foretold = int(np.count_nonzero(days.marks == DayMark.FORECAST))
    if days.marks.size == 1:
        what = "; it is missing" if lacking else "; it is forecast" if foretold else ""
        return f"1 day, {_long(days.first)}{what}."
    run = f"{days.marks.size:,} days from {_long(days.first)} to {_long(days.last)}"
    forecast = f", {foretold:,} of them forecast" if foretold else ""
    return f"{run}{forecast}; {lack.get(lacking, f'{lacking:,} of them are missing')}."


def _filled(told: StationTold) -> Iterator[str]:
    if not told.measured.missing.any():
        return
    ways = [f"{count:,} {_HOW[kind]}" for kind, count in told.filled_by().items()]
    left = int(np.count_nonzero(told.filled.missing))
    if ways:
        yield f"Filled: {listed(ways)}."
    if left:
        yield f"{left:,} could not be filled and {'stays' if left == 1 else 'stay'} missing."


def _found(told: StationTold, findings: Sequence[WeatherFinding]) -> Iterator[str]:
    """Give what was found wrong in the days that are told, and how much more there is."""
    first, last = told.heat.weather.first, told.heat.weather.last
    inside = [found for found in findings if found.first <= last and found.last >= first]
    for found in inside:
        yield found.text
    if left := len(findings) - len(inside):
        more = "1 finding more is" if left == 1 else f"{left:,} findings more are"
        yield f"{more} of days before or after those told here; --json tells all."


def _print_heat(heat: HeatTold) -> None:
    capped = "" if heat.cap_f is None else f", none more above {heat.cap_f:g} °F ({heat.cutoff})"
    say(
        f"Heat units above {heat.base_f:g} °F{capped}, {heat.method},"
        f" {_span(heat.weather.first, heat.weather.last)}:",
        indent=2,
    )
    print(f"\n  {'week from':<12}{'heat units':>11}{'total':>9}{'other years':>13}{'':>2}filled")
    for line in _weeks(heat):
        print(line)
    say()
    for sentence in _sums(heat):
        say(sentence, indent=2)


def _weeks(heat: HeatTold) -> Iterator[str]:
    """Give a line for each week: its heat, and that from the first day on."""
    length = load_routine().week_days
    usual = heat.others.mean(axis=0).cumsum() if heat.others.size else None
    so_far = heat.heat.cumsum()
    for begin in range(0, heat.heat.size, length):
        end = min(begin + length, heat.heat.size)
        day = heat.weather.day_at(begin).isoformat()
        week, total = _figure(float(heat.heat[begin:end].sum())), _figure(float(so_far[end - 1]))
        other = "–" if usual is None else _figure(float(usual[end - 1]))
        marks = heat.weather.marks[begin:end]
        filled = int(np.count_nonzero(np.isin(marks, list(_HOW))))
        said = str(filled) if filled else ""
        yield f"  {day:<12}{week:>11}{total:>9}{other:>13}  {said}".rstrip()


def _figure(value: float) -> str:
    return "–" if np.isnan(value) else f"{value:,.0f}"


def _sums(heat: HeatTold) -> Iterator[str]:
    unknown = int(np.count_nonzero(np.isnan(heat.heat)))
    if heat.total is not None:
        yield f"In all {heat.total:,.0f} heat units."
    elif unknown == heat.heat.size:
        yield "None of these days is known, so no heat is told."
    else:
        days = "1 day is" if unknown == 1 else f"{unknown:,} days are"
        known = float(np.nansum(heat.heat))
        yield f"{days} not known, so no sum is told; the other days make {known:,.0f} heat units."
    if heat.usual is not None:
        count = len(heat.others)
        years = "1 other year has" if count == 1 else f"the mean of {count} other years is"
        yield f"For the same days {years} {heat.usual:,.0f}."
    else:
        yield "No other year of this station has all of these days."
