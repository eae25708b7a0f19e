"""Which weather one field's season goes by, what of it was filled, and what may come."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import numpy as np

from quarterwalk.call.clock_told import distance_told, miles_from_km
from quarterwalk.call.figures import listed
from quarterwalk.crop import CropClock
from quarterwalk.report.names import plain
from quarterwalk.report.season_dates import day_told
from quarterwalk.weather.ahead import FEW_YEARS, RECENT_DAYS
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.weather.daily import DayMark
from quarterwalk.words import phrase, phrase_for


def weather_used(clock: CropClock, weather: FieldWeather) -> Iterator[str]:
    """Say which weather a season goes by.

    Parameters
    ----------
    clock : CropClock
        The season.
    weather : FieldWeather
        The station, and what was filled.

    Yields
    ------
    str
        Sentences, in the language spoken.
    """
    yield _station(weather)
    if weather.passed_over:
        names = listed([plain(name) for name in weather.passed_over])
        yield phrase("Passed over, since too much of the season is missing: {names}.", names=names)
    yield from _filled(clock, weather)
    yield from _known_until(clock, weather)
    yield _years(clock)
    if weather.lender is not None:
        yield _lent(weather.lender.label, weather.lender_km)


def _station(weather: FieldWeather) -> str:
    name, km = plain(weather.weather.station.label), weather.distance_km
    if km is None:
        return phrase(
            "Weather: {station}; how far it is from the field is not known.", station=name
        )
    return phrase(
        "Weather: {station}, {miles} miles ({km} km) from the field.",
        station=name,
        miles=distance_told(miles_from_km(km)),
        km=distance_told(km),
    )


def _filled(clock: CropClock, weather: FieldWeather) -> Iterator[str]:
    if not clock.heat.known:
        return
    counts = weather.filled(clock.planted, clock.heat.known_until)
    if not counts:
        yield phrase("No day since planting had to be filled.")
    for kind, count in counts.items():
        yield _filled_by(kind, count)


def _filled_by(kind: DayMark, count: int) -> str:
    if kind is DayMark.NEIGHBOUR:
        return phrase_for(
            count,
            "{count} day was filled from another station.",
            "{count} days were filled from another station.",
        )
    if kind is DayMark.BETWEEN:
        return phrase_for(
            count,
            "{count} day was filled between the days before and after it.",
            "{count} days were filled between the days before and after them.",
        )
    return phrase_for(
        count,
        "{count} day was filled with the mean of other years.",
        "{count} days were filled with the mean of other years.",
    )


def _known_until(clock: CropClock, weather: FieldWeather) -> Iterator[str]:
    heat = clock.heat
    if not heat.known:
        return
    marks = weather.weather.between(clock.planted, heat.known_until).marks
    measured = np.flatnonzero(marks != DayMark.FORECAST)
    last = clock.planted + timedelta(days=int(measured[-1]) if measured.size else -1)
    if last < heat.known_until:
        yield phrase(
            "Weather is measured until {day}, and forecast until {last}.",
            day=day_told(last, clock.on),
            last=day_told(heat.known_until, clock.on),
        )
    elif last < clock.on:
        yield phrase("Weather is known until {day} only.", day=day_told(last, clock.on))
    else:
        yield phrase("Weather is known until {day}.", day=day_told(last, clock.on))


def _lent(station: str, km: float | None) -> str:
    """Say whose the other years are, where the station has few of its own."""
    name = plain(station)
    if km is None:
        return phrase(
            "Years before its first are those of {station}, moved by what the two differ.",
            station=name,
        )
    return phrase(
        "Years before its first are those of {station}, {miles} miles from the field, moved by"
        " what the two differ.",
        station=name,
        miles=distance_told(miles_from_km(km)),
    )


def _years(clock: CropClock) -> str:
    years = clock.heat.years
    if not years:
        return phrase(
            "The station has no other years, so what may come is guessed from the last {days}"
            " days; the ranges are rough.",
            days=RECENT_DAYS,
        )
    if len(years) < FEW_YEARS:
        return phrase_for(
            len(years),
            "What may come is taken from {count} other year only, so the ranges are rough.",
            "What may come is taken from {count} other years only, so the ranges are rough.",
        )
    return phrase(
        "What may come is taken from {count} other years, {first} to {last}.",
        count=len(years),
        first=min(years),
        last=max(years),
    )
