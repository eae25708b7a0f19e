"""Answers of a service laid over one another: the days of one place in a row."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from quarterwalk.files.weather_answer import Answer
from quarterwalk.files.weather_request import PLACE_DECIMALS, WeatherRequest
from quarterwalk.weather.daily import DailyWeather, DayMark
from quarterwalk.weather.station import Place, Station


@dataclass(frozen=True, slots=True)
class Told:
    """An answer, and how it came.

    Parameters
    ----------
    request : WeatherRequest
        What was asked.
    answer : Answer
        What was told.
    came : datetime
        When, with its time zone.
    older : bool
        Whether it is older than it should be.
    written : bool
        Whether it is kept, where it should be.
    """

    request: WeatherRequest
    answer: Answer
    came: datetime
    older: bool = False
    written: bool = True


def joined_weather(
    place: Place, days: tuple[date, date], told: list[Told], now: datetime
) -> DailyWeather:
    """Lay answers over one another, each over those before it where it has a day.

    Parameters
    ----------
    place : (float, float)
        Longitude and latitude, rounded. [degrees]
    days : (date, date)
        The first and the last day that are wanted.
    told : list of Told
        Where two have a day, the later in the list wins.
    now : datetime
        Its time zone says which day it was when an answer came.

    Returns
    -------
    DailyWeather
        A day that was past when its answer came is marked measured, another forecast.
    """
    first, count = days[0], (days[1] - days[0]).days + 1
    tmin, tmax = np.full(count, np.nan), np.full(count, np.nan)
    marks = np.zeros(count, np.uint8)
    for piece in told:
        answer = piece.answer
        came = min(piece.came, now).astimezone(now.tzinfo).date()
        at = (answer.first - first).days + np.arange(answer.tmin_f.size)
        here = ~np.isnan(answer.tmin_f) & (at >= 0) & (at < count)
        tmin[at[here]], tmax[at[here]] = answer.tmin_f[here], answer.tmax_f[here]
        past = at[here] < (came - first).days
        marks[at[here]] = np.where(past, DayMark.MEASURED, DayMark.FORECAST)
    return DailyWeather(_station(place, told), first, tmin, tmax, marks)


def _station(place: Place, told: list[Told]) -> Station:
    longitude, latitude = place
    heights = [p.answer.elevation_m for p in told if p.answer.elevation_m is not None]
    name = f"grid {latitude:.{PLACE_DECIMALS}f},{longitude:.{PLACE_DECIMALS}f}"
    return Station(name, place=place, elevation_m=heights[0] if heights else None)
