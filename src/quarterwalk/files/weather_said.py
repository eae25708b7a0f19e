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
    FEW_HOURS = "few-hours"
    UNIT = "unit-switched"
    IMPOSSIBLE = "impossible-value"
    SWAPPED = "swapped-extremes"
    STUCK = "stuck-values"


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
    if odd is Odd.FEW_HOURS:
        return _said_of_few_hours(days, begin, count, gaps)
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


def _said_of_few_hours(days: StatedDays, begin: int, count: int, gaps: dict[str, object]) -> str:
    return phrase_for(
        count,
        "{station}, {first}: too few hours are known ({hours} of 24) or too many in a row are "
        "not; the day is taken as missing.",
        "{station}, {first} to {last}: too few hours are known, first {hours} of 24, or too many "
        "in a row are not; {count} days are taken as missing.",
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
            "{station}, {first}: {low} and {high} are not both possible on earth; "
            "the day is taken as missing.",
            "{station}, {first} to {last}: temperatures that are not possible on earth, first "
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
    return phrase(
        "{station}, {first} to {last}: {count} days in a row have the same {low} and {high}; "
        "the thermometer may have been stuck. The days are kept.",
        count=count,
        **gaps,
    )


def said_of_more(days: StatedDays, begin: int, end: int, count: int) -> str:
    """Word that more days are like those told before.

    Parameters
    ----------
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
        "{station}, {first}: {count} more day is like those just named.",
        "{station}, {first} to {last}: {count} more days are like those just named.",
        station=days.station.label,
        first=days.day_at(begin),
        last=days.day_at(end - 1),
    )


def _degrees(days: StatedDays, value: float) -> str:
    return "—" if np.isnan(value) else f"{value:.6g} °{days.unit.value}"
