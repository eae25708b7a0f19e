"""What is odd in a station's days, and what is done about it.

Nothing is filled in here and nothing is mended: a day that can't be right is missing
from here on, and the finding says so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date

import numpy as np
import numpy.typing as npt

from quarterwalk.files.refusal import refuse
from quarterwalk.files.weather_codes import alone_days, zero_days
from quarterwalk.files.weather_days import StatedDays, to_fahrenheit
from quarterwalk.files.weather_levels import possible, refuse_mixed_up
from quarterwalk.files.weather_runs import runs
from quarterwalk.files.weather_said import Odd, said_of_more, said_of_run
from quarterwalk.files.weather_spikes import far_off_days
from quarterwalk.files.weather_units import refuse_two_sources, switched_days, without_switched
from quarterwalk.weather.daily import DailyWeather, DayMark
from quarterwalk.weather.hourly import FEWEST_HOURS

BoolArray = npt.NDArray[np.bool_]
FloatArray = npt.NDArray[np.float64]

# Days in a row with the same two temperatures that look like a stuck thermometer: a rule
# of this project. [days]
STUCK_DAYS = 5
# The same of the lowest or of the highest alone, which may well repeat for a week where
# weather is even. A rule of this project. [days]
STUCK_ALONE_DAYS = 20
# More than this share of swapped days is a swapped pair of columns: a rule of this
# project. [fraction]
MOST_SWAPPED = 0.5
# Runs of days that are told one by one for each kind and station; the rest are told
# together. A rule of this project. [count]
MOST_RUNS = 10


@dataclass(frozen=True, slots=True)
class WeatherFinding:
    """Something odd in some days of a station.

    Parameters
    ----------
    station : str
        Its id.
    first, last : date
        The days; both are inside.
    code : str
        One of `Odd`.
    text : str
        What it is and what was done, in plain words.
    rest : Rest or None
        The runs of days that are told together, where this is so.
    """

    station: str
    first: date
    last: date
    code: str
    text: str
    rest: Rest | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True, eq=False)
class Rest:
    """Runs of days of one kind that are told together; each can be told alone.

    Parameters
    ----------
    odd : Odd
        The kind.
    days : StatedDays
        As the file states them.
    places : tuple of (int, int)
        Of the first day of each run and of the one after its last. [from 0]
    """

    odd: Odd
    days: StatedDays
    places: tuple[tuple[int, int], ...]

    def within(self, first: date, last: date, most: int) -> tuple[list[WeatherFinding], int]:
        """Tell the runs that have days between two, at most so many one by one.

        Parameters
        ----------
        first, last : date
            Both are inside.
        most : int
            [count]

        Returns
        -------
        told : list of WeatherFinding
            One by one, and what is more in one.
        outside : int
            Runs that are not between. [count]
        """
        begin, end = ((day - self.days.first).days for day in (first, last))
        inside = tuple(run for run in self.places if run[0] <= end and run[1] > begin)
        told = list(_told_runs(self.odd, self.days, inside, max(most, 0)))
        return told, len(self.places) - len(inside)


def findings_between(
    findings: Sequence[WeatherFinding], first: date, last: date
) -> tuple[list[WeatherFinding], int]:
    """Choose what was found in some days, each finding once.

    Parameters
    ----------
    findings : sequence of WeatherFinding
        Of one file or of several.
    first, last : date
        Both are inside.

    Returns
    -------
    inside : list of WeatherFinding
        Of each kind and station the first `MOST_RUNS` one by one, and the rest in one.
    outside : int
        How many more there are of other days. [count]
    """
    inside: dict[WeatherFinding, None] = {}
    named: Counter[tuple[str, str]] = Counter()
    outside = 0
    for finding in dict.fromkeys(findings):
        kind = finding.station, finding.code
        if finding.rest is not None:
            told, left = finding.rest.within(first, last, MOST_RUNS - named[kind])
            inside |= dict.fromkeys(told)
            outside += left
        elif finding.first <= last and finding.last >= first:
            named[kind] += 1
            inside[finding] = None
        else:
            outside += 1
    return list(inside), outside


def checked_days(file: str, days: StatedDays) -> tuple[DailyWeather, tuple[WeatherFinding, ...]]:
    """Check a station's days, and take out those that can't be right.

    Parameters
    ----------
    file : str
        What errors call it.
    days : StatedDays
        As the file states them.

    Returns
    -------
    weather : DailyWeather
        In degrees Fahrenheit.
    findings : tuple of WeatherFinding
        Kind by kind, each in the order of the days.

    Raises
    ------
    RefusedInput
        If the two temperatures are swapped on most days, or plausible only in the unit
        that is not stated.
    """
    refuse_mixed_up(file, without_switched(days))
    out = np.zeros(days.marks.size, np.bool_)
    findings = _of_kind(Odd.WRONG_HOURS, days, _at(days, days.wrong_hours))
    for odd, find in _CHECKS.items():
        found = find(days, out) & ~out
        if odd is Odd.SWAPPED:
            _refuse_swapped_columns(file, days, found, ~out)
        if odd is Odd.UNIT:
            refuse_two_sources(file, days, found)
        out |= found
        findings += _of_kind(odd, days, found)
    return _weather(days, out), (*findings, *_kept(days, out))


def _kept(days: StatedDays, out: BoolArray) -> Iterator[WeatherFinding]:
    """Tell what is odd in days that are not taken out."""
    stuck = _same(days, [days.tmin, days.tmax], STUCK_DAYS) & ~out
    yield from _of_kind(Odd.STUCK, days, stuck)
    for odd, values in ((Odd.STUCK_LOW, days.tmin), (Odd.STUCK_HIGH, days.tmax)):
        alone = _same(days, [values], STUCK_ALONE_DAYS) & ~out
        for begin, end in list(runs(alone)):
            if np.all(stuck[begin:end]) or end - begin < STUCK_ALONE_DAYS:
                alone[begin:end] = False
        yield from _of_kind(odd, days, alone)
    yield from _of_kind(Odd.STUCK_HOURS, days, _at(days, days.stuck_hours) & ~out)


def _weather(days: StatedDays, out: BoolArray) -> DailyWeather:
    low, high = (
        np.where(out, np.nan, to_fahrenheit(values, days.unit)) for values in (days.tmin, days.tmax)
    )
    marks = np.where(out, DayMark.MISSING, days.marks).astype(np.uint8)
    return DailyWeather(days.station, days.first, low, high, marks)


def _failed(days: StatedDays, _: BoolArray) -> BoolArray:
    return _at(days, days.failed)


def _with_few_hours(days: StatedDays, _: BoolArray) -> BoolArray:
    return _at(days, [at for at, known in days.few_hours.items() if known < FEWEST_HOURS])


def _with_long_gap(days: StatedDays, _: BoolArray) -> BoolArray:
    return _at(days, days.few_hours)


def _at(days: StatedDays, places: Iterable[int]) -> BoolArray:
    found = np.zeros(days.marks.size, np.bool_)
    found[list(places)] = True
    return found


def _without_both(days: StatedDays, _: BoolArray) -> BoolArray:
    return np.isnan(days.tmin) & np.isnan(days.tmax)


def _with_one(days: StatedDays, _: BoolArray) -> BoolArray:
    one: BoolArray = np.isnan(days.tmin) != np.isnan(days.tmax)
    return one


def _switched(days: StatedDays, _: BoolArray) -> BoolArray:
    return switched_days(days)


def _impossible(days: StatedDays, _: BoolArray) -> BoolArray:
    coldest, hottest = possible(days.station, days.unit)
    both = np.stack([days.tmin, days.tmax])
    outside: BoolArray = np.any((both < coldest) | (both > hottest), axis=0)
    return outside


def _swapped(days: StatedDays, _: BoolArray) -> BoolArray:
    above: BoolArray = days.tmin > days.tmax
    return above


def _far_off(days: StatedDays, out: BoolArray) -> BoolArray:
    found = zero_days(days, out)
    for find in (far_off_days, alone_days):
        found |= find(days, out | found)
    return found


_CHECKS: dict[Odd, Callable[[StatedDays, BoolArray], BoolArray]] = {
    Odd.FAILED: _failed,
    Odd.FEW_HOURS: _with_few_hours,
    Odd.LONG_GAP: _with_long_gap,
    Odd.MISSING: _without_both,
    Odd.ONE_EXTREME: _with_one,
    Odd.UNIT: _switched,
    Odd.IMPOSSIBLE: _impossible,
    Odd.SWAPPED: _swapped,
    Odd.FAR_OFF: _far_off,
}
"""Checks that take days out, in the order in which a day is taken out but once; each is told
the days that are out already."""


def _refuse_swapped_columns(
    file: str, days: StatedDays, swapped: BoolArray, possible: BoolArray
) -> None:
    count, of = int(np.count_nonzero(swapped)), int(np.count_nonzero(possible))
    if count > MOST_SWAPPED * of:
        got = f"above it on {count} of {of} days (station {days.station.label})"
        expected = "lowest temperatures that are not above the highest"
        refuse(file, got, expected, "Are the two columns swapped?")


def _same(days: StatedDays, values: Sequence[FloatArray], least: int) -> BoolArray:
    """Find measured days in a row, at least so many, that have the same values."""
    is_measured = days.marks == DayMark.MEASURED
    same = is_measured[1:] & is_measured[:-1]
    for each in values:
        same &= np.diff(each) == 0.0
    found = np.zeros(days.marks.size, np.bool_)
    for begin, end in runs(same):
        if end - begin + 1 >= least:
            found[begin : end + 1] = True
    return found


def _runs(odd: Odd, days: StatedDays, found: BoolArray) -> tuple[tuple[int, int], ...]:
    if odd is Odd.STUCK:
        return tuple(part for run in runs(found) for part in _parts(days, *run))
    return tuple(runs(found))


def _parts(days: StatedDays, begin: int, end: int) -> Iterator[tuple[int, int]]:
    """Part a run where the values change from one stuck pair to another."""
    change = np.diff(days.tmin[begin:end]) != 0.0
    change |= np.diff(days.tmax[begin:end]) != 0.0
    edges = [begin, *(np.flatnonzero(change) + begin + 1).tolist(), end]
    yield from zip(edges[:-1], edges[1:], strict=True)


def _of_kind(odd: Odd, days: StatedDays, found: BoolArray) -> list[WeatherFinding]:
    return list(_told_runs(odd, days, _runs(odd, days, found), MOST_RUNS))


def _told_runs(
    odd: Odd, days: StatedDays, places: tuple[tuple[int, int], ...], most: int
) -> Iterator[WeatherFinding]:
    """Tell so many runs one by one, and the rest together."""
    for begin, end in places[:most]:
        yield _finding(odd, days, begin, end, said_of_run(odd, days, begin, end))
    if rest := places[most:]:
        begin, end = rest[0][0], rest[-1][1]
        count = sum(last - first for first, last in rest)
        text = said_of_more(odd, days, begin, end, count)
        yield _finding(odd, days, begin, end, text, Rest(odd, days, rest))


def _finding(
    odd: Odd, days: StatedDays, begin: int, end: int, text: str, rest: Rest | None = None
) -> WeatherFinding:
    first, last = days.day_at(begin), days.day_at(end - 1)
    return WeatherFinding(days.station.id, first, last, odd.value, text, rest)
