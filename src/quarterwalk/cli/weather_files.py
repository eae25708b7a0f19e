"""Weather on the command line: files read, stations that stand in several of them joined."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from quarterwalk.cli.lengths import length_words
from quarterwalk.errors import Problem, RefusedInput, UsageError, shown
from quarterwalk.files.weather_file import WeatherFinding, read_weather
from quarterwalk.units import FOOT_M, MILE_FEET
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.merge import merged
from quarterwalk.weather.station import Place, Station, by_distance

# A file may hold thousands of stations; gaps are filled from few, and all near. A rule of
# this project. [count]
MOST_STATIONS = 20

# Files of one station tell its place within this: one rounded to a tenth of a degree is up
# to 5 miles off. A rule of this project. [miles]
SAME_PLACE_MILES = 5
_METRES = 1000.0  # [m/km]


@dataclass(frozen=True, slots=True)
class ChosenWeather:
    """The weather of all files, each station once, and what was found wrong in them.

    `hourly` are the hours that files gave, in the order of the files. `files` names the file
    that told the place of each station, by its id.
    """

    stations: tuple[DailyWeather, ...]
    findings: tuple[WeatherFinding, ...]
    hourly: tuple[HourlyWeather, ...] = ()
    files: Mapping[str, str] = field(default_factory=dict)


def chosen_weather(paths: Sequence[str], station_list: str | None) -> ChosenWeather:
    """Read files of weather, saying on standard error what was left alone.

    Parameters
    ----------
    paths : sequence of str
        Files; one of them may be ``-`` for standard input.
    station_list : str or None
        The archive's list of stations.

    Returns
    -------
    ChosenWeather

    Raises
    ------
    UsageError
        If standard input is to be read twice.
    RefusedInput
        If a file can't be taken, or two of them put a station at two places.
    """
    if paths.count("-") > 1:
        raise UsageError("only one FILE of weather can be - (standard input).")
    stations: list[tuple[str, DailyWeather]] = []
    findings: list[WeatherFinding] = []
    hourly: list[HourlyWeather] = []
    for path in paths:
        stdin = sys.stdin.buffer if path == "-" else None
        told = read_weather(path, stations=station_list, stdin=stdin)
        for notice in told.notices:
            print(notice, file=sys.stderr)
        stations += [(told.file, weather) for weather in told.stations]
        findings += told.findings
        hourly += told.hourly
    once = tuple(dict.fromkeys(findings))
    joined, files = one_a_station(stations)
    return ChosenWeather(tuple(joined), once, tuple(hourly), files)


def nearest(stations: Sequence[DailyWeather], place: Place) -> list[DailyWeather]:
    """Give the stations near a place, the nearest first.

    Parameters
    ----------
    stations : sequence of DailyWeather
        Each once; those whose place is not known are left out.
    place : (float, float)
        Longitude and latitude. [degrees]

    Returns
    -------
    list of DailyWeather
        At most `MOST_STATIONS`.
    """
    by_id = {weather.station.id: weather for weather in stations}
    near = by_distance([weather.station for weather in stations], place)
    return [by_id[station.id] for station, _ in near[:MOST_STATIONS]]


def one_a_station(
    stations: Iterable[tuple[str, DailyWeather]],
) -> tuple[list[DailyWeather], dict[str, str]]:
    """Join the days of stations that have the same id, saying where they differ.

    Parameters
    ----------
    stations : iterable of (str, DailyWeather)
        Each with what errors call its file, in the order in which the files were given.

    Returns
    -------
    stations : list of DailyWeather
        In the order in which each came first.
    files : dict of str to str
        Which file told the place of each, by the station's id.

    Raises
    ------
    RefusedInput
        If two files put a station at two places.
    """
    by_id: dict[str, DailyWeather] = {}
    files: dict[str, str] = {}
    for file, weather in stations:
        id_ = weather.station.id
        before = by_id.get(id_)
        if before is not None:
            _refuse_two_places((files[id_], before.station), (file, weather.station))
        # of two files the later one's place holds
        if before is None or weather.station.place is not None:
            files[id_] = file
        by_id[id_] = weather if before is None else _joined(before, weather)
    return list(by_id.values()), files


def _joined(before: DailyWeather, after: DailyWeather) -> DailyWeather:
    """Lay a station's later file over its earlier one, saying how many days differ."""
    told = merged(before, after)
    if told.changed:
        _say_that_they_differ(after.station, told.changed)
    return told.weather


def _refuse_two_places(before: tuple[str, Station], after: tuple[str, Station]) -> None:
    (first, one), (second, other) = before, after
    if one.place is None or other.place is None:
        return
    metres = (one.distance_km(other.place) or 0.0) * _METRES
    if metres > SAME_PLACE_MILES * MILE_FEET * float(FOOT_M):
        was, got = (f"{place[1]:g},{place[0]:g}" for place in (one.place, other.place))
        expected = f"within {SAME_PLACE_MILES} miles of {was}, where {shown(first)} has station"
        hint = (
            f"That is {length_words(metres, metric=False)} apart. Are they two stations? Then"
            " give one of them another id."
        )
        problem = Problem(second, None, None, got, f"{expected} {shown(other.id)}", hint)
        raise RefusedInput([problem])


def _say_that_they_differ(station: Station, count: int) -> None:
    days = "1 day differs" if count == 1 else f"{count} days differ"
    print(
        f"{station.label} stands in more than one file, and {days}; the file given later holds.",
        file=sys.stderr,
    )
