"""The weather of a district: taken over from files, a station at a time, all or nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

import numpy as np
from django.db import transaction

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.office import clock
from quarterwalk.office.kept_weather import weather_of
from quarterwalk.office.models import District, StationRow
from quarterwalk.office.services import calls
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate_season import from_weather, to_weather
from quarterwalk.weather import DailyWeather, DayMark, fill_gaps
from quarterwalk.weather.fill import NEIGHBOUR_REACH
from quarterwalk.weather.merge import Merged, merged
from quarterwalk.weather.station import by_distance

# A rule of this project: fields go by the nearest station and its gaps are filled from the
# next; more than these are a file of a whole state. [stations]
MOST_STATIONS = 40

# Days that are filled are told by days so far away.
_FILLED_BY = timedelta(days=NEIGHBOUR_REACH)


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
    filled: Mapping[DayMark, int]
    missing: int


@transaction.atomic
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
        If the district would have more stations than its fields can need.
    """
    take_turn(district)
    rows = {row.station: row for row in StationRow.objects.filter(district=district)}
    told = {each.station.id: each for each in weather.stations}
    _refuse_too_many(weather, len({*rows, *told}))
    now, done = clock.now(), {}
    for id, days in told.items():
        row = rows.get(id)
        done[id] = merged(None if row is None else to_weather(row), days)
        StationRow.objects.update_or_create(
            district=district,
            station=id,
            defaults={**from_weather(done[id].weather), "taken_at": now},
        )
    changed = [each.since for each in done.values() if each.since is not None]
    if changed:
        calls.keep_for_weather(district, min(changed) - _FILLED_BY)
    here = {each.station.id: each for each in weather_of(district.pk).stations}
    return tuple(_taken(told[id], each, here) for id, each in done.items())


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
        filled={kind: count for kind, count in filled.items() if count},
        missing=gaps - sum(filled.values()),
    )


@transaction.atomic
def remove_station(*, station: StationRow) -> None:
    """Take a station away with all its days; fields go by the others.

    Parameters
    ----------
    station : StationRow
        Which.
    """
    take_turn(station.district)
    StationRow.objects.filter(pk=station.pk).delete()
    calls.keep_for_weather(station.district, station.first)
