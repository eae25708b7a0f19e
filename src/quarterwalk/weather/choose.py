"""Which station a field goes by, and its weather with the gaps filled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from quarterwalk.weather.daily import DailyWeather, DayMark, WeatherError, forecast_holds
from quarterwalk.weather.fill import fill_gaps
from quarterwalk.weather.longer import with_other_years
from quarterwalk.weather.station import Place, Station

# A rule of this project: a station that lacks more of the season than this is passed over
# for the next nearest. [fraction]
MOST_LACKING = 0.2

# Yet no station is passed over for this few: most come in a day or two late (a rule of this
# project). [days]
LAG_DAYS = 3

_FILLED = (DayMark.NEIGHBOUR, DayMark.BETWEEN, DayMark.OTHER_YEARS)


@dataclass(frozen=True, slots=True)
class FieldWeather:
    """The weather that a field goes by.

    Parameters
    ----------
    weather : DailyWeather
        Of one station, with its gaps filled as far as the rule allows.
    distance_km : float or None
        From the field to the station; None where either place is not known. [km]
    passed_over : tuple of str
        Nearer stations that lack too much of the season, by their names.
    lender : Station or None
        The station whose earlier years stand in for those that this one lacks.
    lender_km : float or None
        From the field to there. [km]
    """

    weather: DailyWeather
    distance_km: float | None
    passed_over: tuple[str, ...] = ()
    lender: Station | None = None
    lender_km: float | None = None

    def filled(self, first: date, last: date) -> dict[DayMark, int]:
        """Count the days of a season that were filled, by how.

        Parameters
        ----------
        first, last : date
            Both are inside.

        Returns
        -------
        dict of DayMark to int
            Those that occur. [days]
        """
        marks = self.weather.between(first, last).marks
        counts = {kind: int(np.count_nonzero(marks == kind)) for kind in _FILLED}
        return {kind: count for kind, count in counts.items() if count}


def weather_for(
    stations: Sequence[DailyWeather], place: Place | None, *, first: date, last: date
) -> FieldWeather:
    """Choose the station of a field, and fill its gaps from the others.

    Parameters
    ----------
    stations : sequence of DailyWeather
        All that there are.
    place : (float, float) or None
        Longitude and latitude of the field; None where its boundary is not known. [degrees]
    first, last : date
        The season so far, such as from planting to the day asked for. What was measured
        later fills no gap either: the weather is told as it was known then.

    Returns
    -------
    FieldWeather
        By the nearest station that has most of the season; by the only one wherever it is.
        With few years of its own, those of the next station that has more stand before them.

    Raises
    ------
    WeatherError
        If there is no weather, or nothing tells which of several stations is near.
    """
    if not stations:
        raise WeatherError("there must be weather of one station at least, got none.")
    known = [told for each in stations if (told := known_by(each, last)) is not None]
    if not known:
        late = ", ".join(each.station.label for each in stations)
        raise WeatherError(f"weather must begin by {first}, and that of {late} begins later.")
    ordered = _by_distance(known, place)
    fitting = [pair for pair in ordered if not _lacks(pair[0], first, last)]
    chosen, km = (fitting or ordered)[0]
    nearer = [weather for weather, _ in ordered[: _place_of(chosen, ordered)]]
    others = [weather for weather, _ in ordered if weather is not chosen]
    names = tuple(weather.station.label for weather in nearer)
    whole, lender = with_other_years(fill_gaps(chosen, others), others, first)
    if lender is None:
        return FieldWeather(whole, km, names)
    lender_km = next(far for weather, far in ordered if weather is lender)
    return FieldWeather(whole, km, names, lender.station, lender_km)


def known_by(weather: DailyWeather, day: date) -> DailyWeather | None:
    """Give a station's days as they were known on a day.

    Parameters
    ----------
    weather : DailyWeather
        All days that are known now.
    day : date
        The day.

    Returns
    -------
    DailyWeather or None
        Without the days measured later, and without the forecast that came with them; None
        where there is no day by then.
    """
    if forecast_holds(weather.marks[max(weather.index_of(day) + 1, 0) :]):
        return weather
    return weather.between(weather.first, day) if weather.first <= day else None


def _place_of(chosen: DailyWeather, ordered: Sequence[tuple[DailyWeather, float | None]]) -> int:
    return next(i for i, (weather, _) in enumerate(ordered) if weather is chosen)


def _by_distance(
    stations: Sequence[DailyWeather], place: Place | None
) -> list[tuple[DailyWeather, float | None]]:
    if len(stations) == 1:
        only = stations[0]
        return [(only, None if place is None else only.station.distance_km(place))]
    if place is None:
        raise WeatherError(
            f"with {len(stations)} stations the place of the field must be known.",
            "Give the boundaries of the fields, or a file of one station.",
        )
    told = [(weather, weather.station.distance_km(place)) for weather in stations]
    known = [(weather, km) for weather, km in told if km is not None]
    if not known:
        raise WeatherError(
            "with several stations their places must be known, and none is told.",
            "Give latitude and longitude in the table, or a list of stations.",
        )
    return [*sorted(known, key=lambda pair: (pair[1], pair[0].station.id))]


def _lacks(weather: DailyWeather, first: date, last: date) -> bool:
    missing = weather.between(first, max(first, last)).missing
    return int(missing.sum()) > max(MOST_LACKING * missing.size, LAG_DAYS)
