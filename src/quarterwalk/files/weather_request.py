"""What is asked of a service of weather: which days, at a place that is rounded first."""

from __future__ import annotations

import hashlib
import math
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlencode

from quarterwalk.files.weather_answer import HIGHEST, LOWEST, Answer
from quarterwalk.files.weather_service_errors import AnswerNotRead, DaysNotServed
from quarterwalk.weather.station import Place

PLACE_DECIMALS = 1
"""A place leaves the machine to 0.1 degree: about 7 miles, less than weather changes over
and more than tells a field. A rule of this project. [decimals of a degree]"""

SETTLED_DAYS = 10
"""Older days no longer change; younger ones are asked of the forecast too. The archive
follows some 5 days behind (Open-Meteo, "Historical Weather API", from memory); twice that is
a rule of this project. [days]"""

HISTORY_ENDS = 2
"""The history is asked for up to so many days before today; a rule of this project. [days]"""

FORECAST_DAYS = 16
"""The most the forecast has, today among them (Open-Meteo, "Weather Forecast API").
[days]"""


@dataclass(frozen=True, slots=True)
class WeatherRequest:
    """One request, as it leaves the machine less the key.

    Parameters
    ----------
    address : str
        Whom it goes to.
    place : (float, float)
        Longitude and latitude, rounded. [degrees]
    days : (date, date) or None
        The first and the last day; None for those around today.
    moving : bool
        Whether the last day moves on as time does.
    """

    address: str
    place: Place
    days: tuple[date, date] | None = None
    moving: bool = True

    @property
    def url(self) -> str:
        """The address with what is asked."""
        return f"{self.address}?{urlencode(self._asked, safe=',')}"

    @property
    def name(self) -> str:
        """A name for what is kept; the same from day to day where the last day moves."""
        same = [pair for pair in self._asked if not (self.moving and pair[0] == "end_date")]
        return hashlib.sha256(f"{self.address}?{urlencode(same)}".encode()).hexdigest()

    @property
    def _asked(self) -> list[tuple[str, str]]:
        longitude, latitude = self.place
        asked = [
            ("latitude", f"{latitude:.{PLACE_DECIMALS}f}"),
            ("longitude", f"{longitude:.{PLACE_DECIMALS}f}"),
            ("daily", f"{HIGHEST},{LOWEST}"),
            ("temperature_unit", "fahrenheit"),
            ("timezone", "auto"),
        ]
        if self.days is None:
            around = {"past_days": SETTLED_DAYS, "forecast_days": FORECAST_DAYS}
            return asked + [(name, str(days)) for name, days in around.items()]
        first, last = self.days
        return [*asked, ("start_date", first.isoformat()), ("end_date", last.isoformat())]


def rounded_place(place: Place) -> Place:
    """Round a place so far that it tells no field.

    Parameters
    ----------
    place : (float, float)
        Longitude and latitude. [degrees]

    Returns
    -------
    (float, float)
        To `PLACE_DECIMALS`. [degrees]

    Raises
    ------
    ValueError
        If it does not lie on the earth.
    """
    longitude, latitude = place
    if not (math.isfinite(longitude) and abs(longitude) <= 180.0 and abs(latitude) <= 90.0):
        raise ValueError(f"a place must be longitude and latitude in degrees, got {place}.")
    # Adding nothing turns -0.0 into 0.0, which is written without a sign.
    return round(longitude, PLACE_DECIMALS) + 0.0, round(latitude, PLACE_DECIMALS) + 0.0


def history_requests(
    address: str, place: Place, days: tuple[date, date], today: date
) -> list[WeatherRequest]:
    """Ask for the days that are past: years that no longer change apart from the rest.

    Whole years are asked for, so that one answer serves whatever days are wanted, and no
    day of a field's, such as its planting, leaves the machine.

    Parameters
    ----------
    address : str
        Of the history.
    place : (float, float)
        Longitude and latitude, rounded. [degrees]
    days : (date, date)
        The first and the last day that are wanted.
    today : date
        Nothing is asked for that is not `HISTORY_ENDS` days past.

    Returns
    -------
    list of WeatherRequest
        None, one or two.
    """
    first, last = days
    newest = today - timedelta(days=HISTORY_ENDS)
    turn = (today - timedelta(days=SETTLED_DAYS + 1)).replace(month=1, day=1)
    asked = []
    if first < turn:
        end = min(turn - timedelta(days=1), last.replace(month=12, day=31))
        years = (first.replace(month=1, day=1), end)
        asked.append(WeatherRequest(address, place, years, moving=False))
    if first <= newest and last >= turn:
        asked.append(WeatherRequest(address, place, (turn, newest)))
    return asked


def forecast_requests(
    address: str, place: Place, days: tuple[date, date], today: date
) -> list[WeatherRequest]:
    """Ask for the days around today, if any of them is wanted.

    The request is the same every day, so that an older answer can stand in for it.

    Parameters
    ----------
    address : str
        Of the forecast.
    place : (float, float)
        Longitude and latitude, rounded. [degrees]
    days : (date, date)
        The first and the last day that are wanted.
    today : date
        The day at the place.

    Returns
    -------
    list of WeatherRequest
        None or one.

    Raises
    ------
    DaysNotServed
        If the days begin after the last that a forecast has.
    """
    reach = today + timedelta(days=FORECAST_DAYS - 1)
    if days[0] > reach:
        raise DaysNotServed(
            f"days must begin by {reach}, the last that a forecast has, got {days[0]}."
        )
    wanted = days[1] >= today - timedelta(days=SETTLED_DAYS)
    return [WeatherRequest(address, place)] if wanted else []


def with_days_asked(answer: Answer, request: WeatherRequest, today: date) -> Answer:
    """Give an answer back if it has the days that were asked for.

    Parameters
    ----------
    answer : Answer
        What came.
    request : WeatherRequest
        What was asked.
    today : date
        The day at the place.

    Returns
    -------
    Answer

    Raises
    ------
    AnswerNotRead
        If it has other days, or those around today don't have today among them.
    """
    told = f"{answer.first} to {answer.last}"
    if request.days is None:
        if not answer.first <= today <= answer.last:
            raise AnswerNotRead(request.address, f"its days must hold {today}, got {told}")
    elif request.days != (answer.first, answer.last):
        asked = f"{request.days[0]} to {request.days[1]}"
        raise AnswerNotRead(request.address, f"its days must be {asked}, got {told}")
    return answer
