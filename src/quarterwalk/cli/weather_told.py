"""How a station's weather looks on a screen: place, gaps, what was found wrong, heat by week."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np

from quarterwalk.call.figures import listed
from quarterwalk.cli.lengths import length_words
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.files.weather_findings import WeatherFinding, findings_between
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
    if _ends_unknown(told):
        say("Nothing is known of the days after that.", indent=2)
    say()


def _named(station: Station) -> str:
    return f"{station.name} ({station.id})" if station.name else station.id


def _place(told: StationTold) -> Iterator[str]:
    station = told.measured.station
    place = station.place
    if place is None:
        yield "Where it stands is not told."
        return
    where = f"{_degrees(place[1], 'NS')}, {_degrees(place[0], 'EW')}"
    if _is_model(station):
        yield (
            f"Model weather of a grid cell some miles wide, about {where};"
            " no thermometer stands there."
        )
    elif told.distance_km is None:
        yield f"At {where}."
    else:
        yield f"At {where}, {_away(told.distance_km)} from the place asked for."


def _is_model(station: Station) -> bool:
    """Tell whether a service worked the weather out; its place is one rounded for it."""
    return station.id.startswith("grid ") and not station.name


def _away(km: float) -> str:
    return length_words(km * _METRES, metric=False)


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
    how = _HOW | {DayMark.NEIGHBOUR: _from_others(told)}
    ways = [f"{count:,} {how[kind]}" for kind, count in told.filled_by().items()]
    left = int(np.count_nonzero(told.filled.missing))
    if ways:
        yield f"Filled: {listed(ways)}."
    if left:
        yield f"{left:,} could not be filled and {'stays' if left == 1 else 'stay'} missing."


def _from_others(told: StationTold) -> str:
    """Say which station days were filled from; of several, how far they are at most."""
    if len(told.beside) == 1:
        ((station, km),) = told.beside
        if _is_model(station):
            return f"from the model weather of {station.id}"
        return f"from {station.label}, {_away(km)} away"
    if told.beside:
        return f"from other stations, none more than {_away(told.beside[-1][1])} away"
    return _HOW[DayMark.NEIGHBOUR]


def _found(told: StationTold, findings: Sequence[WeatherFinding]) -> Iterator[str]:
    """Give what was found wrong in the days that are told, and how much more there is."""
    first, last = told.heat.weather.first, told.heat.weather.last
    if _ends_unknown(told):
        # they say why the heat ends before the file does
        last = told.measured.last
    inside, left = findings_between(findings, first, last)
    for found in inside:
        yield found.text
    if left:
        more = "1 finding more is" if left == 1 else f"{left:,} findings more are"
        yield f"{more} of days before or after those told here; --json tells all."


def _ends_unknown(told: StationTold) -> bool:
    """Tell whether nothing is known of the days after those whose heat is told."""
    after = (told.heat.weather.last - told.filled.first).days + 1
    rest = told.filled.missing[max(0, after) :]
    return bool(rest.size and rest.all())


def _print_heat(heat: HeatTold) -> None:
    capped = "" if heat.cap_f is None else f", none more above {heat.cap_f:g} °F ({heat.cutoff})"
    say(
        f"Heat units above {heat.base_f:g} °F{capped}, {heat.method},"
        f" {_span(heat.weather.first, heat.weather.last)}:",
        indent=2,
    )
    print(
        f"\n  {'week from':<12}{'days':>4}{'heat units':>12}{'total':>9}{'other years':>13}  filled"
    )
    for line in _weeks(heat):
        print(line)
    say()
    for sentence in _sums(heat):
        say(sentence, indent=2)


def _weeks(heat: HeatTold) -> Iterator[str]:
    """Give a line for each week: its days, their heat, and that from the first day on."""
    length = load_routine().week_days
    usual = heat.others.mean(axis=0).cumsum() if heat.others.size else None
    so_far = heat.heat.cumsum()
    for begin in range(0, heat.heat.size, length):  # a last week may be short
        end = min(begin + length, heat.heat.size)
        day = heat.weather.day_at(begin).isoformat()
        week, total = _figure(float(heat.heat[begin:end].sum())), _figure(float(so_far[end - 1]))
        other = "–" if usual is None else _figure(float(usual[end - 1]))
        marks = heat.weather.marks[begin:end]
        filled = int(np.count_nonzero(np.isin(marks, list(_HOW))))
        said = str(filled) if filled else ""
        yield f"  {day:<12}{end - begin:>4}{week:>12}{total:>9}{other:>13}  {said}".rstrip()


def _day_count(days: int) -> str:
    return "1 day" if days == 1 else f"{days:,} days"


def _figure(value: float) -> str:
    return "–" if np.isnan(value) else f"{value:,.0f}"


def _sums(heat: HeatTold) -> Iterator[str]:
    unknown = int(np.count_nonzero(np.isnan(heat.heat)))
    told = heat.heat.size
    if heat.total is not None:
        yield f"In all {heat.total:,.0f} heat units{_forecast_part(heat)}."
    elif told == 1 and _lacks_next_morning(heat):
        yield "This day needs the next morning's low, which is not known, so no heat is told."
    elif unknown == told:
        yield "None of these days is known, so no heat is told."
    elif unknown == 1 and _lacks_next_morning(heat):
        told -= 1
        until = _long(heat.weather.day_at(told - 1))
        known = float(heat.heat[:told].sum())
        yield (
            "The last day needs the next morning's low, which is not known;"
            f" up to {until}: {known:,.0f} heat units{_forecast_part(heat)}."
        )
    else:
        days = "1 day is" if unknown == 1 else f"{unknown:,} days are"
        known = float(np.nansum(heat.heat))
        yield (
            f"{days} not known, so no sum is told; the other days make {known:,.0f} heat units"
            f"{_forecast_part(heat)}."
        )
    if heat.others.size:
        count = len(heat.others)
        usual = float(heat.others[:, :told].sum(axis=1).mean())
        years = "1 other year has" if count == 1 else f"the mean of {count} other years is"
        yield f"For the same days {years} {usual:,.0f}."
    else:
        yield "No other year of this station has all of these days."


def _forecast_part(heat: HeatTold) -> str:
    """Say how much of a sum is of days that are forecast, and may yet come otherwise."""
    forecast = (heat.weather.marks == DayMark.FORECAST) & ~np.isnan(heat.heat)
    count = int(np.count_nonzero(forecast))
    if not count:
        return ""
    return f", {float(heat.heat[forecast].sum()):,.0f} of them forecast ({_day_count(count)})"


def _lacks_next_morning(heat: HeatTold) -> bool:
    """Tell whether the last day is known and its heat is not, as by the double methods."""
    return bool(np.isnan(heat.heat[-1]) and not heat.weather.missing[-1])
