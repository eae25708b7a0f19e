"""Weather of a place from a public service, for those who ask for it.

Nothing here is called unless the user wishes it; weather from files needs no connection.
What is asked, what leaves the machine and on which terms stands in ``docs/weather-service.md``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path
from urllib.parse import urlencode

from urllib3.util import parse_url

from quarterwalk.files.service_address import checked_address
from quarterwalk.files.weather_answer import Answer, read_answer
from quarterwalk.files.weather_cache import KeptAnswer, keep_answer, kept_answer
from quarterwalk.files.weather_fetch import Patience, fetch_bytes
from quarterwalk.files.weather_joined import Told, joined_weather
from quarterwalk.files.weather_request import (
    WeatherRequest,
    forecast_requests,
    history_requests,
    rounded_place,
    with_days_asked,
)
from quarterwalk.files.weather_service_errors import (
    DaysNotServed,
    ServiceNotReached,
    WeatherServiceError,
)
from quarterwalk.weather.daily import DailyWeather
from quarterwalk.weather.station import Place
from quarterwalk.words import phrase, phrase_for


@dataclass(frozen=True, slots=True)
class Service:
    """Whom weather is asked of: Open-Meteo, or another with the same form of answer.

    Parameters
    ----------
    forecast, history : str
        Addresses, without a question mark. They begin with https://, unless they are
        this machine's own.
    key : str
        Goes along as ``apikey`` where it is not empty; never kept, never shown.
    credit : str
        The words that the data's licence asks for; told with the weather.
    patience : Patience
        How long an answer is waited for.

    Raises
    ------
    UnsafeAddress
        If nothing may be sent to one of the addresses.
    """

    forecast: str = "https://api.open-meteo.com/v1/forecast"
    history: str = "https://archive-api.open-meteo.com/v1/archive"
    key: str = field(default="", repr=False)
    credit: str = "Weather data by Open-Meteo.com (https://open-meteo.com/), CC BY 4.0"
    patience: Patience = Patience()

    def __post_init__(self) -> None:
        checked_address(self.forecast)
        checked_address(self.history)


@dataclass(frozen=True, slots=True)
class FetchedWeather:
    """Days of weather, and what is to be said of them.

    Parameters
    ----------
    weather : DailyWeather
        Every day that was asked for; those that nobody told are missing.
    notices : tuple of str
        Whole sentences, the credit first.
    """

    weather: DailyWeather
    notices: tuple[str, ...]


def fetch_weather(
    place: Place,
    first: date,
    last: date,
    *,
    now: datetime,
    service: Service | None = None,
    cache: Path | None = None,
) -> FetchedWeather:
    """Ask a service for the days from one to another, past and to come.

    The place is rounded to 0.1 degree before it leaves the machine.

    Parameters
    ----------
    place : (float, float)
        Longitude and latitude. [degrees]
    first, last : date
        Both are inside.
    now : datetime
        With its time zone; its day is taken for the day at the place.
    service : Service or None
        Whom to ask; None for the public one.
    cache : Path or None
        A folder for answers, so that they are not asked for twice; None to keep nothing.

    Returns
    -------
    FetchedWeather
        Days that were past when they were told are marked measured (an analysis on a
        grid), the others forecast.

    Raises
    ------
    DaysNotServed
        If the days end before they begin, or begin after the last that is forecast.
    WeatherServiceError
        If the service gave no weather, and no older answer is kept.
    ValueError
        If the place is not on the earth, or `now` has no time zone.
    """
    if now.tzinfo is None:
        raise ValueError(f"now must have its time zone, got {now}.")
    asked_of, where, days = service or Service(), rounded_place(place), (first, last)
    # first whether anybody has days so late: where no last day was asked for, it lies before
    forecast = forecast_requests(asked_of.forecast, where, days, now.date())
    if last < first:
        raise DaysNotServed(f"days must not end before they begin, got {first} to {last}.")
    history = history_requests(asked_of.history, where, days, now.date())
    # The history is laid over the forecast: where both have a day, it wins.
    told: list[Told] = []
    for request in (*forecast, *history):
        offline = any(piece.older for piece in told)
        told.append(_told(request, asked_of, cache, now, offline=offline))
    notices = [asked_of.credit] if asked_of.credit else []
    notices += [_said_of_place(where), *_said_of_answers(told)]
    if forecast and told[0].answer.last < last:
        notices.append(_said_of_reach(told[0].answer.last))
    return FetchedWeather(joined_weather(where, days, told, now), tuple(notices))


def _told(
    request: WeatherRequest, service: Service, cache: Path | None, now: datetime, *, offline: bool
) -> Told:
    """Give the kept answer if it still serves, else a new one, else the kept one after all.

    Once one request found nobody, those that an older answer can stand in for are not sent.
    """
    kept = _readable(cache, request)
    if kept:
        older = Told(request, kept[1], kept[0].fetched, older=not kept[0].serves(request, now))
        if offline or not older.older:
            return older
    key = f"&{urlencode({'apikey': service.key})}" if service.key else ""
    try:
        data = fetch_bytes(request.url + key, service.patience, now)
    except ServiceNotReached:
        if not kept:
            raise
        return older
    answer = with_days_asked(read_answer(data, request.address), request, now.date())
    written = cache is None or keep_answer(cache, request, KeptAnswer(request.url, now, data))
    return Told(request, answer, now, written=written)


def _readable(cache: Path | None, request: WeatherRequest) -> tuple[KeptAnswer, Answer] | None:
    """Give what is kept; None where there is nothing that can be read."""
    kept = kept_answer(cache, request) if cache else None
    try:
        return (kept, read_answer(kept.data, request.address)) if kept else None
    except WeatherServiceError:
        return None


def _said_of_place(place: Place) -> str:
    longitude, latitude = place
    return phrase(
        "The weather is that of latitude {latitude}, longitude {longitude}: the place, rounded "
        "to 0.1 degree before it was asked for.",
        latitude=f"{latitude:.1f}",
        longitude=f"{longitude:.1f}",
    )


def _said_of_answers(told: list[Told]) -> list[str]:
    notices = []
    older = sorted((piece for piece in told if piece.older), key=lambda piece: piece.came)
    if older:
        gaps = {
            "host": parse_url(older[0].request.address).host,
            "time": f"{older[0].came:%Y-%m-%d %H:%M}",
        }
        notices.append(
            phrase_for(
                len(older),
                "An older answer of {host}, of {time}, is used: there is no connection, or the "
                "service is too busy.",
                "Older answers are used, the oldest of {host} of {time}: there is no connection, "
                "or the service is too busy.",
                **gaps,
            )
        )
    if not all(piece.written for piece in told):
        notices.append(
            phrase("An answer could not be kept; it will be asked for again the next time.")
        )
    return notices


def _said_of_reach(reach: date) -> str:
    return phrase(
        "The forecast ends on {reach}; days from {missing} on are missing.",
        reach=reach,
        missing=reach + timedelta(days=1),
    )
