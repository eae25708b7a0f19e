"""Weather of invented stations: a warm summer every year, the same to the degree."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.office.models import District, FieldRow
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from quarterwalk.office.services.weather import TakenStation, take_weather
from quarterwalk.weather import DailyWeather, DayMark, Place, Station

PLANTED = date(2026, 5, 8)
FIRST, LAST = date(2012, 1, 1), date(2026, 7, 31)
NEAR: Place = (-100.1, 33.0)
"""A few miles west of the invented fields. [degrees]"""


def station(
    id: str = "GIN",
    *,
    name: str = "Gin Road",
    place: Place | None = NEAR,
    days: tuple[date, date] = (FIRST, LAST),
    warmer: float = 0.0,
) -> DailyWeather:
    """Make a station whose summers differ a little from year to year."""
    count = (days[1] - days[0]).days + 1
    each = [days[0] + timedelta(days=at) for at in range(count)]
    of_year = np.array([day.timetuple().tm_yday for day in each])
    year = np.array([day.year for day in each])
    mean = 62.0 + 21.0 * np.sin(2 * np.pi * (of_year - 105) / 365) + (year % 5 - 2) + warmer
    marks = np.full(count, DayMark.MEASURED, np.uint8)
    return DailyWeather(Station(id, name, place), days[0], mean - 13.0, mean + 13.0, marks)


def handed_in(*stations: DailyWeather) -> WeatherFile:
    """Give stations as a file brings them."""
    return WeatherFile("weather.csv", stations, (), (), ())


def weathered(district: District, *stations: DailyWeather) -> tuple[TakenStation, ...]:
    """Hand weather in for a district: one station near, unless others are given."""
    return take_weather(district=district, weather=handed_in(*(stations or (station(),))))


def planted(field: FieldRow, on: date = PLANTED) -> None:
    """Give a field its rule and its planting, and no first square."""
    set_rule(field=field, guideline="southern-high-plains", line="")
    set_dates(field=field, year=on.year, dates=SeasonDates(planted=on), treated=())
