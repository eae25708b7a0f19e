"""Where fields stand: by the first square that was given, or else by the crop's clock."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

from shapely import from_geojson

from quarterwalk.call.figures import capital
from quarterwalk.crop import (
    SEASON_DAYS,
    CropClock,
    CropDateError,
    CropDates,
    Given,
    Seen,
    Stage,
    clock_for,
    given_standing,
    of_stand,
    outlook_of,
)
from quarterwalk.office.kept_weather import DistrictWeather, weather_of
from quarterwalk.office.models import FieldRow, SeasonRow
from quarterwalk.office.remembered import Remembered
from quarterwalk.office.seen_signs import Signs, flowers_of, signs_of
from quarterwalk.office.translate import season_on, to_dates
from quarterwalk.office.translate_season import stand_planted, to_given
from quarterwalk.weather import DailyWeather, FieldWeather, Place, WeatherError, weather_for

# Fields and days whose standing a process remembers: a season of walks in a hundred fields,
# at about 2 kB each with what it was asked by. [count]
_REMEMBERED = 2_048

# Clocks that fields of one station and planting, and a page that is opened again, share; each
# holds its heat, some 100 kB. [count]
_CLOCKS = 64


@dataclass(frozen=True, slots=True)
class WorkedFrom:
    """What a standing that was worked out rests on.

    Parameters
    ----------
    station : str
        Where the weather was measured.
    distance_km : float or None
        From the field to there; None where either place is not known. [km]
    begin : date or None
        The first day on which the crop may have four true leaves; None past the season.
    looked : date or None
        The last day on which somebody noted what they saw, besides walks.
    """

    station: str
    distance_km: float | None
    begin: date | None
    looked: date | None


@dataclass(frozen=True, slots=True)
class CropStanding:
    """Where one field's crop stands on a day, and how that is known.

    Parameters
    ----------
    dates : CropDates or None
        Its dates, given or worked out.
    stage : Stage or None
        Where it stands; None together with the dates.
    worked : WorkedFrom or None
        What it was worked out from; None where first square was given, or nothing is known.
    why_not : str
        Why it can't be worked out, as a sentence; empty where it needn't be.
    """

    dates: CropDates | None = None
    stage: Stage | None = None
    worked: WorkedFrom | None = None
    why_not: str = ""


_UNKNOWN = CropStanding()


@dataclass(frozen=True, slots=True, eq=False)
class FieldSeason:
    """One field's clock, with the weather that it runs on."""

    clock: CropClock
    weather: FieldWeather


class Clocks:
    """The clocks of some fields: what they run on is asked for once, and only where it is needed.

    Parameters
    ----------
    fields : iterable of FieldRow
        With their seasons and treatments.
    years : collection of int
        The seasons that will be asked for.
    weather : mapping of int to DistrictWeather
        By district, in place of what is kept of it.
    """

    def __init__(
        self,
        fields: Iterable[FieldRow],
        years: Collection[int],
        weather: Mapping[int, DistrictWeather] | None = None,
    ) -> None:
        rows = list(fields)
        waiting = {row.pk: row.district_id for row in rows if _any_in(row, years, waits_for_clock)}
        here = dict(weather or {})
        here |= {each: weather_of(each) for each in {*waiting.values()} - here.keys()}
        self._weather = {
            pk: here[district] for pk, district in waiting.items() if here[district].stations
        }
        self._signs: Signs = signs_of(self._weather, years) if self._weather else {}
        given = {row.pk for row in rows if _any_in(row, years, waits_for_flowers)}
        self._flowers: Signs = flowers_of(given, years) if given else {}

    def standing(self, row: FieldRow, on: date) -> CropStanding:
        """Tell where a field stands on a day.

        Parameters
        ----------
        row : FieldRow
            One of the fields.
        on : date
            The day, in one of the years; what was measured or seen later is not looked at.

        Returns
        -------
        CropStanding
        """
        dates, season = to_dates(row, on), season_on(row, on)
        if dates is not None and season is not None:
            looks = _of_stand(season, self._flowers.get(row.pk, ()), on)
            return CropStanding(*given_standing(on, dates, looks))
        weather = self._weather.get(row.pk)
        if weather is None or season is None or stand_planted(season) is None:
            return _UNKNOWN
        asked = _asked(row, season, self._signs.get(row.pk, ()), on)
        treated = tuple(treatment.on for treatment in row.treatments.all())
        return STANDINGS.made(
            (weather.content, asked, treated), lambda: _standing(weather, asked, treated)
        )


def waits_for_clock(season: SeasonRow) -> bool:
    """Tell whether a season's stage can only be known from the clock.

    Parameters
    ----------
    season : SeasonRow
        The season.

    Returns
    -------
    bool
    """
    return season.first_square is None and stand_planted(season) is not None


def waits_for_flowers(season: SeasonRow) -> bool:
    """Tell whether flowers that are seen stand for the first bloom of a season.

    Parameters
    ----------
    season : SeasonRow
        The season.

    Returns
    -------
    bool
        Where first square was given and first bloom was not.
    """
    return season.first_square is not None and season.bloom is None


def counts_as_bloom(season: SeasonRow, seen: Seen) -> bool:
    """Tell whether one look saw flowers that stand for the first bloom of a season.

    Parameters
    ----------
    season : SeasonRow
        The season.
    seen : Seen
        The look.

    Returns
    -------
    bool
        False where first bloom was given, or first square was not, or the flowers came too soon
        after it.
    """
    first = season.first_square
    if first is None or season.bloom is not None:
        return False
    _, stage = given_standing(seen.on, CropDates(first, season.first_square_latest), [seen])
    return stage.flowers.on is not None


def _any_in(row: FieldRow, years: Collection[int], waits: Callable[[SeasonRow], bool]) -> bool:
    return any(season.year in years and waits(season) for season in row.seasons.all())


def season_of(row: FieldRow, on: date) -> FieldSeason | str:
    """Read the clock of one field, also where first square was given.

    Parameters
    ----------
    row : FieldRow
        With its seasons.
    on : date
        The day.

    Returns
    -------
    FieldSeason or str
        Why there is none, as a sentence.
    """
    season = season_on(row, on)
    planted = stand_planted(season)
    if season is None or planted is None:
        return "The day of planting is not given."
    weather = weather_of(row.district_id)
    if not weather.stations:
        return "No weather has been handed in for this district."
    signs = signs_of([row.pk], [on.year]).get(row.pk, ())
    asked = _asked(row, season, signs, on)
    try:
        return _read(weather, asked)
    except (WeatherError, CropDateError) as error:
        return _why_not(asked, error)


@dataclass(frozen=True, slots=True)
class _Asked:
    """All that a clock runs on besides weather; the same again is the same clock."""

    place: Place
    planted: date
    on: date
    given: Given
    seen: tuple[Seen, ...]


STANDINGS: Remembered[Hashable, CropStanding] = Remembered(_REMEMBERED)
"""Standings that were worked out, by all that they rest on."""

CLOCKS: Remembered[Hashable, CropClock] = Remembered(_CLOCKS)
"""Clocks that were read, by all that they run on: where the field lies is not among it."""


def _asked(row: FieldRow, season: SeasonRow, signs: tuple[Seen, ...], on: date) -> _Asked:
    planted, place = stand_of(row, season, on)
    seen = tuple(each for each in _of_stand(season, signs, on) if each.on <= on)
    return _Asked(place, planted, on, to_given(season, on), seen)


def _of_stand(season: SeasonRow, signs: tuple[Seen, ...], on: date) -> tuple[Seen, ...]:
    """Give what was seen of the stand that the field has on a day."""
    if season.first_square is not None and stand_planted(season) is None:
        # then a look so long before first square is of another season
        return of_stand(signs, season.first_square, again=False)
    planted = _stand_on(season, on)
    return of_stand(signs, planted, again=planted == season.replanted)


def stand_of(row: FieldRow, season: SeasonRow, on: date) -> tuple[date, Place]:
    """Give the day of planting of the stand that a field has on a day, and where the field lies.

    Parameters
    ----------
    row : FieldRow
        The field.
    season : SeasonRow
        Its season.
    on : date
        The day.

    Returns
    -------
    (date, (float, float))
    """
    return _stand_on(season, on), _middle(row.boundary)


def _stand_on(season: SeasonRow, on: date) -> date:
    """Give the day on which the stand was planted that the field has on a day."""
    again, once = season.replanted, season.planted
    if again is not None and once is not None and on < again:
        return once
    return again or once or on


@lru_cache(maxsize=512)
def _middle(boundary: str) -> Place:
    middle = from_geojson(boundary).centroid
    return middle.x, middle.y


def _read(weather: DistrictWeather, asked: _Asked) -> FieldSeason:
    last = max(asked.planted, asked.on)
    here = weather_for(weather.stations, asked.place, first=asked.planted, last=last)
    key = days_digest(here.weather), asked.planted, asked.on, asked.given, asked.seen
    return FieldSeason(CLOCKS.made(key, lambda: _clock(here.weather, asked)), here)


def _clock(weather: DailyWeather, asked: _Asked) -> CropClock:
    return clock_for(weather, asked.planted, on=asked.on, given=asked.given, seen=asked.seen)


def days_digest(weather: DailyWeather) -> bytes:
    """Give a digest of a station's name and of all its days: the same one is the same weather.

    Parameters
    ----------
    weather : DailyWeather
        The days, such as those that a field goes by.

    Returns
    -------
    bytes
    """
    told = hashlib.sha256(f"{weather.station.label}\n{weather.first}".encode())
    for each in (weather.tmin_f, weather.tmax_f, weather.marks):
        told.update(each.tobytes())
    return told.digest()


def _why_not(asked: _Asked, error: WeatherError | CropDateError) -> str:
    """Say why a clock can't be read, in words of the field rather than of what was asked."""
    planted = f"{asked.planted.day} {asked.planted:%B}"
    if asked.on < asked.planted:
        return f"Planted {planted}: the day that is asked for lies before."
    if asked.on >= asked.planted + timedelta(days=SEASON_DAYS):
        return f"Planted {planted}: that season is over."
    return capital(str(error))


def _standing(weather: DistrictWeather, asked: _Asked, treated: tuple[date, ...]) -> CropStanding:
    try:
        told = _read(weather, asked)
        dates, stage = told.clock.dates(treated), told.clock.stage(told.weather.distance_km)
    except (WeatherError, CropDateError) as error:
        return CropStanding(why_not=_why_not(asked, error))
    begin = outlook_of(told.clock).begin
    worked = WorkedFrom(
        station=told.weather.weather.station.label,
        distance_km=told.weather.distance_km,
        begin=None if begin is None else begin[0],
        looked=max((each.on for each in asked.seen if not each.walked), default=None),
    )
    return CropStanding(dates, stage, worked)
