"""Stations with their gaps filled, and the heat units of a stretch of days."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np

from quarterwalk.cli.weather_files import MOST_STATIONS, nearest
from quarterwalk.errors import UsageError
from quarterwalk.files.weather_json import HeatTold, StationTold
from quarterwalk.weather.daily import DailyWeather, DayMark, FloatArray, WeatherError
from quarterwalk.weather.fill import fill_gaps
from quarterwalk.weather.heat_units import HEAT_METHODS, CutOff
from quarterwalk.weather.station import Place, Station

# A mild day, to see whether method, base, cap and cut-off go together. [°F]
_ANY_DAY = (60.0, 80.0)

# What a station tells of a day itself, from which others are filled.
_MEASURED = (DayMark.MEASURED, DayMark.FORECAST)


def told_stations(
    stations: Sequence[DailyWeather], options: argparse.Namespace
) -> list[StationTold]:
    """Fill the gaps of stations and count their heat.

    Parameters
    ----------
    stations : sequence of DailyWeather
        Each once.
    options : argparse.Namespace
        Of ``quarterwalk weather``.

    Returns
    -------
    list of StationTold
        The nearest to the place asked for first, then those whose place is not known; at
        most `MOST_STATIONS`.

    Raises
    ------
    UsageError
        If the options don't go together, or nothing picks a few of very many stations.
    """
    _refuse_options(options)
    told = _in_order(stations, options.near)
    return [_told(weather, stations, options) for weather in told]


def _refuse_options(options: argparse.Namespace) -> None:
    if options.first and options.last and options.last < options.first:
        raise UsageError(
            f"--to must not come before --from, got {options.first} to {options.last}."
        )
    try:
        _heat(np.array(_ANY_DAY[:1]), np.array(_ANY_DAY[1:]), options)
    except WeatherError as error:
        raise UsageError(f"{_at_fault(options)}: {error}") from None


def _at_fault(options: argparse.Namespace) -> str:
    """Name the option that goes with no others, where some don't go together."""
    plain = argparse.Namespace(**{**vars(options), "cutoff": CutOff.HORIZONTAL.value})
    try:
        _heat(np.array(_ANY_DAY[:1]), np.array(_ANY_DAY[1:]), plain)
    except WeatherError:
        return "--cap"
    return "--cutoff"


def _in_order(stations: Sequence[DailyWeather], place: Place | None) -> list[DailyWeather]:
    """Give the stations to be told; of very many, those near the place asked for."""
    if place is None:
        if len(stations) > MOST_STATIONS:
            raise UsageError(
                f"--near must say which of {len(stations):,} stations are meant;"
                f" the nearest {MOST_STATIONS} are told."
            )
        return list(stations)
    near = nearest(stations, place)
    unknown = [each for each in stations if each.station.place is None]
    told = [*near, *unknown][:MOST_STATIONS]
    if len(told) < len(stations):
        print(f"Told are the nearest {len(told)} of {len(stations):,} stations.", file=sys.stderr)
    return told


def _told(
    weather: DailyWeather, stations: Sequence[DailyWeather], options: argparse.Namespace
) -> StationTold:
    others = _neighbours(weather, stations)
    filled = fill_gaps(weather, others)
    first, last = _days(filled, options.first, options.last)
    km = None if options.near is None else weather.station.distance_km(options.near)
    heat = _heat_told(filled, first, last, options)
    return StationTold(weather, filled, km, heat, _beside(filled, others))


def _beside(
    filled: DailyWeather, others: Sequence[DailyWeather]
) -> tuple[tuple[Station, float], ...]:
    """Give those stations that measured a day which was filled from one of them."""
    place = filled.station.place
    days = filled.marks == DayMark.NEIGHBOUR
    if place is None or not days.any():
        return ()
    there = [each.between(filled.first, filled.last).marks[days] for each in others]
    return tuple(
        (each.station, km)
        for each, marks in zip(others, there, strict=True)
        if np.isin(marks, _MEASURED).any() and (km := each.station.distance_km(place)) is not None
    )


def _neighbours(weather: DailyWeather, stations: Sequence[DailyWeather]) -> list[DailyWeather]:
    """Give the other stations, the nearest first; none where nobody says where they are."""
    if weather.station.place is None:
        return []
    return nearest([each for each in stations if each is not weather], weather.station.place)


def _days(weather: DailyWeather, first: date | None, last: date | None) -> tuple[date, date]:
    """Take the days asked for; else the last year, to the last day that is known.

    A file that was taken from a station in the middle of a day ends in a part of a day, and
    what is not known has no sum.
    """
    known = np.flatnonzero(~weather.missing)
    end = weather.day_at(int(known[-1])) if known.size else weather.last
    until = last or max(end, first or end)
    begin = first or max(min(weather.first, until), until.replace(month=1, day=1))
    return begin, until


def _heat_told(
    weather: DailyWeather, first: date, last: date, options: argparse.Namespace
) -> HeatTold:
    heat = _heat_between(weather, first, last, options)
    others: list[FloatArray] = []
    for year in range(weather.first.year, weather.last.year + 1):
        start = _same_day(first, year)
        if abs((start - first).days) >= heat.size:
            there = _heat_between(weather, start, start + (last - first), options)
            if not np.isnan(there).any():
                others.append(there)
    return HeatTold(
        options.method,
        options.cutoff,
        options.base,
        options.cap,
        weather.between(first, last),
        heat,
        np.array(others, np.float64).reshape(len(others), heat.size),
    )


def _same_day(day: date, year: int) -> date:
    return date(year, 2, 28) if (day.month, day.day) == (2, 29) else day.replace(year=year)


def _heat_between(
    weather: DailyWeather, first: date, last: date, options: argparse.Namespace
) -> FloatArray:
    # the day after too: some methods draw the afternoon down to the next morning
    days = weather.between(first, last + timedelta(days=1))
    return _heat(days.tmin_f, days.tmax_f, options)[:-1]


def _heat(tmin: FloatArray, tmax: FloatArray, options: argparse.Namespace) -> FloatArray:
    method, cutoff = HEAT_METHODS[options.method], CutOff(options.cutoff)
    return method(tmin, tmax, base=options.base, cap=options.cap, cutoff=cutoff)
