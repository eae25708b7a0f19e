"""Where fields' seasons stand, out, as the JSON that scripts rely on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from quarterwalk.crop import (
    RANGE,
    CropClock,
    DayOdds,
    Disagreement,
    Event,
    SetAside,
    bbch,
    outlook_of,
)
from quarterwalk.files.call_json import week_odds_json
from quarterwalk.files.weather_cells import MARKS
from quarterwalk.weather.choose import FieldWeather

Json = dict[str, Any]

FOUR_LEAVES = "four_leaves"
"""What the day of the fourth true leaf is called, beside the events."""

_HOW = {mark: word for word, mark in MARKS.items()}


@dataclass(frozen=True, slots=True, eq=False)
class StageTold:
    """What is told of one field.

    Parameters
    ----------
    field : str
        Its name.
    clock : CropClock
        Where its season stands.
    weather : FieldWeather
        What the clock ran on.
    disagreements, set_aside : tuple of str
        The sentences of these, in their order.
    """

    field: str
    clock: CropClock
    weather: FieldWeather
    disagreements: tuple[str, ...] = ()
    set_aside: tuple[str, ...] = ()


def stages_json(told: Sequence[StageTold]) -> Json:
    """Give fields' seasons as JSON-able values.

    Parameters
    ----------
    told : sequence of StageTold
        A field each.

    Returns
    -------
    dict
        What is not known is None, never 0; dates as ISO 8601, chances as fractions.
    """
    return {"fields": [_field_json(each) for each in told]}


def _field_json(told: StageTold) -> Json:
    clock = told.clock
    stage = clock.stage()
    return {
        "field": told.field,
        "planted": _iso(clock.planted),
        "on": _iso(clock.on),
        "stage": {
            "name": stage.name.value,
            "squaring_weeks": list(stage.squaring_weeks),
            "bbch": bbch(clock),
        },
        "weeks": week_odds_json(clock.weeks),
        "events": _events(clock),
        "first_square_for_call": [_iso(day) for day in clock.first_square],
        "by_weather": {event.value: _odds_json(odds) for event, odds in clock.by_weather.items()},
        "next": _next(clock),
        "disagreements": [
            _disagreement(each, text)
            for each, text in zip(clock.disagreements, told.disagreements, strict=True)
        ],
        "set_aside": [
            _set_aside(each, text)
            for each, text in zip(clock.set_aside, told.set_aside, strict=True)
        ],
        "weather": _weather(told),
        "heat_units": heat_so_far(clock),
    }


def heat_so_far(clock: CropClock) -> float | None:
    """Give the heat units from planting to the day of the clock.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    float or None
        As the clock counts them: the day of planting counts for nothing. None where the
        weather is not known up to that day. [heat units]
    """
    days = (clock.on - clock.planted).days
    if clock.heat.known <= days:
        return None
    return round(float(clock.heat.heat[0, 1 : days + 1].sum()), 1)


def _events(clock: CropClock) -> Json:
    bloom = clock.given.bloom
    given = {
        Event.FIRST_SQUARE: clock.given.first_square,
        Event.FIRST_BLOOM: None if bloom is None else (bloom, bloom),
    }
    told: Json = {}
    for event, odds in clock.odds.items():
        told[event.value] = _event_json(odds, given.get(event))
        if event is Event.EMERGENCE:
            told[FOUR_LEAVES] = _event_json(clock.four_leaves, None)
    return told


def _event_json(odds: DayOdds, given: tuple[date, date] | None) -> Json:
    """Give the days of an event: those that were given stay, whatever the weather says."""
    told = {**_odds_json(odds), "level": RANGE, "given": given is not None}
    return told if given is None else {**told, "low": _iso(given[0]), "high": _iso(given[1])}


def _odds_json(odds: DayOdds) -> Json:
    low, high = odds.within(RANGE) or (None, None)
    return {"likely": _iso(odds.likely), "low": _iso(low), "high": _iso(high)}


def _next(clock: CropClock) -> Json:
    outlook = outlook_of(clock)
    return {
        "begin": _days(outlook.begin),
        "closest": _days(outlook.closest),
        "bloom": _days(outlook.bloom),
        "weeds_until": _iso(outlook.weeds_until),
        "weeds_again": _iso(outlook.weeds_again),
    }


def _disagreement(told: Disagreement, text: str) -> Json:
    return {
        "code": told.sign.value,
        "on": _iso(told.on),
        "event": told.event.value,
        "expected": _days(told.expected),
        "text": text,
    }


def _set_aside(told: SetAside, text: str) -> Json:
    return {
        "code": told.sign.value,
        "on": _iso(told.on),
        "by": told.by.value,
        "by_on": _iso(told.by_on),
        "text": text,
    }


def _weather(told: StageTold) -> Json:
    weather, heat = told.weather, told.clock.heat
    last = min(told.clock.on, heat.known_until)
    filled = weather.filled(heat.first, last) if last >= heat.first else {}
    return {
        "station": weather.weather.station.id,
        "distance_km": weather.distance_km,
        "known_until": _iso(heat.known_until) if heat.known else None,
        "years": len(heat.years),
        "years_from": None if weather.lender is None else weather.lender.id,
        "filled": {_HOW[kind]: count for kind, count in filled.items()},
    }


def _days(days: tuple[date, date] | None) -> list[str | None] | None:
    return None if days is None else [_iso(day) for day in days]


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
