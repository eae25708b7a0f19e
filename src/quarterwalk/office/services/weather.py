"""The weather of a district: taken over from files, a station at a time, all or nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

import numpy as np
from django.db import transaction

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.office import clock
from quarterwalk.office.kept_weather import DistrictWeather, weather_of
from quarterwalk.office.models import District, StationRow
from quarterwalk.office.services.calls_ahead import CallsAhead
from quarterwalk.office.services.station_places import refuse_places
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate_season import from_weather
from quarterwalk.office.weather_ahead import ahead_as_forecast, days_ahead, forecast_anew
from quarterwalk.office.weather_change import WeatherChange
from quarterwalk.weather import DailyWeather, DayMark, fill_gaps
from quarterwalk.weather.merge import Merged, merged
from quarterwalk.weather.station import by_distance

# A rule of this project: fields go by the nearest station and its gaps are filled from the
# next; more than these are a file of a whole state. [stations]
MOST_STATIONS = 40

# Walks that came in while calls were made: so many are looked at while others wait, some
# tenths of a second. [count]
_FEW = 5

# How often calls are made while others write, before they have to wait. [count]
_TRIES = 4


@dataclass(frozen=True, slots=True)
class TakenStation:
    """What became of one station of a file.

    Parameters
    ----------
    label : str
        Its name, or its id.
    placed : bool
        Whether it is known where it lies.
    added, changed, measured : int
        Days that are new, that were measured otherwise, that were forecast. [days]
    anew : int
        Days that were forecast, and are forecast otherwise now. [days]
    ahead : int
        Days after today that the file does not mark, and that count as a forecast. [days]
    filled : mapping of DayMark to int
        Days from its first to its last in the file that fields fill, by how. [days]
    missing : int
        Days there that can't be filled. [days]
    """

    label: str
    placed: bool
    added: int
    changed: int
    measured: int
    anew: int
    ahead: int
    filled: Mapping[DayMark, int]
    missing: int


@dataclass(frozen=True, slots=True, eq=False)
class _Planned:
    """A change of a district's weather, and what keeps its rows."""

    change: WeatherChange
    write: Callable[[], object]
    merged: Mapping[str, Merged]


def take_weather(*, district: District, weather: WeatherFile) -> tuple[TakenStation, ...]:
    """Take over the stations of a weather file.

    Parameters
    ----------
    district : District
        Whose fields go by them.
    weather : WeatherFile
        From `read_weather`.

    Returns
    -------
    tuple of TakenStation
        In the order of the file.

    Raises
    ------
    RefusedInput
        If the district would have more stations than its fields can need, or nothing would
        tell where they lie, or a station would lie elsewhere than before.
    """
    today = clock.today(district)
    unmarked = {each.station.id: days_ahead(each, today) for each in weather.stations}
    told = {each.station.id: ahead_as_forecast(each, today) for each in weather.stations}

    def plan(before: DistrictWeather) -> _Planned:
        here = {each.station.id: each for each in before.stations}
        refuse_places(weather, here)
        _refuse_too_many(weather, len({*here, *told}))
        done = {id: _laid_over(here.get(id), days, today) for id, days in told.items()}
        rows = [from_weather(each.weather) for each in done.values() if each.since is not None]
        after = before.after(taken={id: each.weather for id, each in done.items()})
        changed = [each.since for each in done.values() if each.since is not None]
        change = WeatherChange(before, after, min(changed, default=None))
        return _Planned(change, lambda: _write(district, rows), done)

    change, done = (planned := _carry_out(district, plan)).change, planned.merged
    before = {each.station.id: each for each in change.before.stations}
    after = {each.station.id: each for each in change.after.stations}
    return tuple(
        replace(
            _taken(told[id], each, after),
            anew=0 if id not in before else forecast_anew(before[id], told[id], today),
            ahead=unmarked[id],
        )
        for id, each in done.items()
    )


def _laid_over(before: DailyWeather | None, told: DailyWeather, today: date) -> Merged:
    """Lay a file's days over those here, of which none after today can have been measured."""
    if before is None or not days_ahead(before, today):
        return merged(before, told)
    done = merged(ahead_as_forecast(before, today), told)
    tomorrow = today + timedelta(days=1)
    return replace(done, since=tomorrow if done.since is None else min(done.since, tomorrow))


def _write(district: District, rows: Iterable[Mapping[str, Any]]) -> None:
    now = clock.now()
    for row in rows:
        StationRow.objects.update_or_create(
            district=district, station=row["station"], defaults={**row, "taken_at": now}
        )


def _carry_out(district: District, plan: Callable[[DistrictWeather], _Planned]) -> _Planned:
    """Keep a change and all calls that it makes anew in one short transaction.

    Calls are made before, while others read and write; what changed meanwhile is made again.
    Nobody sees a part of it, and where it breaks off nothing was done.
    """
    ahead = CallsAhead(district)
    for _ in range(_TRIES):
        planned = plan(weather_of(district.pk))
        ahead.make(planned.change)
        with transaction.atomic():
            take_turn(district)
            if _still_holds(district, planned.change, ahead):
                return _keep(planned, ahead)
    with transaction.atomic():  # others change so much that they have to wait
        take_turn(district)
        return _keep(plan(weather_of(district.pk)), ahead)


def _still_holds(district: District, change: WeatherChange, ahead: CallsAhead) -> bool:
    same = weather_of(district.pk).content == change.before.content
    return same and len(ahead.lacking(change)) <= _FEW


def _keep(planned: _Planned, ahead: CallsAhead) -> _Planned:
    ahead.make(planned.change)
    planned.write()
    ahead.keep()
    return planned


def _refuse_too_many(weather: WeatherFile, count: int) -> None:
    if count <= MOST_STATIONS:
        return
    hint = "Leave the stations near the fields in the file, and take out the others."
    expected = f"at most {MOST_STATIONS} stations in a district"
    raise RefusedInput([Problem(weather.file, None, "station", str(count), expected, hint)])


def _taken(told: DailyWeather, done: Merged, here: Mapping[str, DailyWeather]) -> TakenStation:
    """Say what a file changed, and how fields fill what it lacks."""
    station = done.weather.station
    others = [each for id, each in here.items() if id != station.id]
    if station.place is not None:
        near = by_distance([each.station for each in others], station.place)
        others = [here[each.id] for each, _ in near]
    gaps = int(np.count_nonzero(done.weather.between(told.first, told.last).missing))
    marks = fill_gaps(done.weather, others).between(told.first, told.last).marks
    kinds = (DayMark.NEIGHBOUR, DayMark.BETWEEN, DayMark.OTHER_YEARS)
    before = done.weather.between(told.first, told.last).marks
    filled = {kind: int(np.count_nonzero((marks == kind) & (before != kind))) for kind in kinds}
    return TakenStation(
        label=station.label,
        placed=station.place is not None,
        added=done.added,
        changed=done.changed,
        measured=done.measured,
        anew=0,
        ahead=0,
        filled={kind: count for kind, count in filled.items() if count},
        missing=gaps - sum(filled.values()),
    )


def remove_station(*, station: StationRow) -> None:
    """Take a station away with all its days; fields go by the others.

    Parameters
    ----------
    station : StationRow
        Which.
    """

    def plan(before: DistrictWeather) -> _Planned:
        # as it is now: a file may have brought earlier days since the row was read
        days = [each.first for each in before.stations if each.station.id == station.station]
        since = min(days, default=station.first)
        change = WeatherChange(before, before.after(away=station.station), since)
        return _Planned(change, StationRow.objects.filter(pk=station.pk).delete, {})

    _carry_out(station.district, plan)
