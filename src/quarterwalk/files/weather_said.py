"""The sentences of what is odd in a station's days."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from quarterwalk.files.weather_days import StatedDays
from quarterwalk.words import phrase, phrase_for


class Odd(StrEnum):
    """What can be odd in a day; the codes of findings."""

    MISSING = "missing-days"
    ONE_EXTREME = "one-extreme"
    FAILED = "failed-check"
    WRONG_HOURS = "wrong-hours"
    FEW_HOURS = "few-hours"
    LONG_GAP = "long-gap"
    UNIT = "unit-switched"
    IMPOSSIBLE = "impossible-value"
    SWAPPED = "swapped-extremes"
    FAR_OFF = "far-off"
    STUCK = "stuck-values"
    STUCK_LOW = "stuck-low"
    STUCK_HIGH = "stuck-high"
    STUCK_HOURS = "stuck-hours"


def said_of_run(odd: Odd, days: StatedDays, begin: int, end: int) -> str:
    """Word what is odd in some days in a row.

    Parameters
    ----------
    odd : Odd
        What it is.
    days : StatedDays
        As the file states them.
    begin, end : int
        Places of the first day and of the one after the last. [from 0]

    Returns
    -------
    str
        With the values of the first day.
    """
    gaps = {
        "station": days.station.label,
        "first": days.day_at(begin),
        "last": days.day_at(end - 1),
        "low": _degrees(days, float(days.tmin[begin])),
        "high": _degrees(days, float(days.tmax[begin])),
    }
    count = end - begin
    if odd is Odd.MISSING:
        return phrase_for(
            count,
            "{station}, {first}: no temperatures; the day is missing.",
            "{station}, {first} to {last}: no temperatures; {count} days are missing.",
            **gaps,
        )
    if odd is Odd.ONE_EXTREME:
        return _said_of_one_extreme(days, begin, count, gaps)
    if odd in (Odd.FEW_HOURS, Odd.LONG_GAP):
        return _said_of_few_hours(odd, days, begin, count, gaps)
    if odd is Odd.FAILED:
        return phrase_for(
            count,
            "{station}, {first}: {values} failed a check of the archive; "
            "the day is taken as missing.",
            "{station}, {first} to {last}: values failed a check of the archive, first "
            "{values}; {count} days are taken as missing.",
            values=days.failed[begin],
            **gaps,
        )
    if odd is Odd.UNIT:
        return _said_of_unit(days, count, gaps)
    if odd in (Odd.WRONG_HOURS, Odd.STUCK_HOURS):
        return _said_of_hours(odd, days, begin, count, gaps)
    if odd in (Odd.STUCK, Odd.STUCK_LOW, Odd.STUCK_HIGH):
        return _said_of_stuck(odd, count, gaps)
    return _said_of_values(odd, count, gaps)


def _said_of_one_extreme(days: StatedDays, begin: int, count: int, gaps: dict[str, object]) -> str:
    if np.isfinite(days.tmin[begin]):
        return phrase_for(
            count,
            "{station}, {first}: only the lowest temperature is given ({low}); "
            "the day is taken as missing.",
            "{station}, {first} to {last}: only one temperature is given, first a lowest of "
            "{low}; {count} days are taken as missing.",
            **gaps,
        )
    return phrase_for(
        count,
        "{station}, {first}: only the highest temperature is given ({high}); "
        "the day is taken as missing.",
        "{station}, {first} to {last}: only one temperature is given, first a highest of "
        "{high}; {count} days are taken as missing.",
        **gaps,
    )


def _said_of_few_hours(
    odd: Odd, days: StatedDays, begin: int, count: int, gaps: dict[str, object]
) -> str:
    if odd is Odd.LONG_GAP:
        return phrase_for(
            count,
            "{station}, {first}: {hours} of 24 hours are known, but too many in a row are not; "
            "the day is taken as missing.",
            "{station}, {first} to {last}: too many hours in a row are not known, though first "
            "{hours} of 24 are; {count} days are taken as missing.",
            hours=days.few_hours[begin],
            **gaps,
        )
    return phrase_for(
        count,
        "{station}, {first}: too few hours are known ({hours} of 24); the day is taken as missing.",
        "{station}, {first} to {last}: too few hours are known, first {hours} of 24; "
        "{count} days are taken as missing.",
        hours=days.few_hours[begin],
        **gaps,
    )


def _said_of_unit(days: StatedDays, count: int, gaps: dict[str, object]) -> str:
    return phrase_for(
        count,
        "{station}, {first}: {low} and {high} fit the days around only if they are in "
        "°{other}; the day is taken as missing.",
        "{station}, {first} to {last}: the temperatures, first {low} and {high}, fit the days "
        "around only if they are in °{other}; {count} days are taken as missing.",
        other=days.unit.other.value,
        **gaps,
    )


def _said_of_values(odd: Odd, count: int, gaps: dict[str, object]) -> str:
    if odd is Odd.IMPOSSIBLE:
        return phrase_for(
            count,
            "{station}, {first}: {low} and {high} are not both possible; "
            "the day is taken as missing.",
            "{station}, {first} to {last}: temperatures that are not possible, first "
            "{low} and {high}; {count} days are taken as missing.",
            **gaps,
        )
    if odd is Odd.SWAPPED:
        return phrase_for(
            count,
            "{station}, {first}: the lowest temperature ({low}) is above the highest ({high}); "
            "the day is taken as missing.",
            "{station}, {first} to {last}: the lowest temperature is above the highest, first "
            "{low} above {high}; {count} days are taken as missing.",
            **gaps,
        )
    return phrase_for(
        count,
        "{station}, {first}: {low} and {high} are too far from the days before and after to be "
        "right; the day is taken as missing.",
        "{station}, {first} to {last}: the temperatures, first {low} and {high}, are too far from "
        "the days before and after to be right; {count} days are taken as missing.",
        **gaps,
    )


def _said_of_stuck(odd: Odd, count: int, gaps: dict[str, object]) -> str:
    if odd is Odd.STUCK_LOW:
        return phrase(
            "{station}, {first} to {last}: {count} days in a row have the same lowest "
            "temperature, {low}; the thermometer may have been stuck. The days are kept.",
            count=count,
            **gaps,
        )
    if odd is Odd.STUCK_HIGH:
        return phrase(
            "{station}, {first} to {last}: {count} days in a row have the same highest "
            "temperature, {high}; the thermometer may have been stuck. The days are kept.",
            count=count,
            **gaps,
        )
    return phrase(
        "{station}, {first} to {last}: {count} days in a row have the same {low} and {high}; "
        "the thermometer may have been stuck. The days are kept.",
        count=count,
        **gaps,
    )


def _said_of_hours(
    odd: Odd, days: StatedDays, begin: int, count: int, gaps: dict[str, object]
) -> str:
    if odd is Odd.WRONG_HOURS:
        return phrase_for(
            count,
            "{station}, {first}: hours that can't be right, first {hour}; they are taken as "
            "missing.",
            "{station}, {first} to {last}: hours that can't be right on {count} days in a row, "
            "first {hour}; they are taken as missing.",
            hour=days.wrong_hours[begin],
            **gaps,
        )
    return phrase_for(
        count,
        "{station}, {first}: the same temperature for a day of hours, {hour}; the thermometer "
        "may have been stuck. The hours are kept.",
        "{station}, {first} to {last}: the same temperature for a day of hours or more, {hour}; "
        "the thermometer may have been stuck. The hours are kept.",
        hour=days.stuck_hours[begin],
        **gaps,
    )


def said_of_more(odd: Odd, days: StatedDays, begin: int, end: int, count: int) -> str:
    """Word that more days are like those told before.

    Parameters
    ----------
    odd : Odd
        What they are.
    days : StatedDays
        As the file states them.
    begin, end : int
        Places of the first of them and of the one after the last. [from 0]
    count : int
        How many of the days between are odd. [count]

    Returns
    -------
    str
    """
    return phrase_for(
        count,
        "{station}, {first}: {count} more day: {kind}.",
        "{station}, {first} to {last}: {count} more days: {kind}.",
        station=days.station.label,
        first=days.day_at(begin),
        last=days.day_at(end - 1),
        kind=_kind(odd),
    )


def _kind(odd: Odd) -> str:
    """Name a kind, as what follows a colon."""
    kinds = {
        Odd.MISSING: phrase("no temperatures"),
        Odd.ONE_EXTREME: phrase("only one temperature is given"),
        Odd.FAILED: phrase("a check of the archive failed"),
        Odd.WRONG_HOURS: phrase("hours that can't be right"),
        Odd.FEW_HOURS: phrase("too few hours are known"),
        Odd.LONG_GAP: phrase("too many hours in a row are not known"),
        Odd.UNIT: phrase("temperatures in the other unit"),
        Odd.IMPOSSIBLE: phrase("temperatures that are not possible"),
        Odd.SWAPPED: phrase("the lowest temperature is above the highest"),
        Odd.FAR_OFF: phrase("temperatures too far from the days before and after"),
        Odd.STUCK: phrase("the same two temperatures in a row"),
        Odd.STUCK_LOW: phrase("the same lowest temperature in a row"),
        Odd.STUCK_HIGH: phrase("the same highest temperature in a row"),
        Odd.STUCK_HOURS: phrase("the same temperature for a day of hours"),
    }
    return kinds[odd]


def _degrees(days: StatedDays, value: float) -> str:
    return "—" if np.isnan(value) else f"{value:.6g} °{days.unit.value}"
