"""Sun and heat of one day for whoever walks: where the shadow falls, and how hot it feels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

import numpy as np

from quarterwalk.call.figures import listed
from quarterwalk.cli.walk_heat import DayHeat, day_heat
from quarterwalk.cli.zone_option import named_zone
from quarterwalk.errors import UsageError
from quarterwalk.weather.daily import DailyWeather, WeatherError
from quarterwalk.weather.heat_index import heat_index
from quarterwalk.weather.heat_risk import cautions_without_number, heat_cautions
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.shadow import ShadowHour, overhead_span, shadow_day
from quarterwalk.weather.station import Place
from quarterwalk.weather.sun import nearest_minute, sun_events

_STEP = 60  # [minutes]

# The day's highest heat index is looked for in these hours around the sun's noon, since air
# goes on warming after it. Where one of them is not known, it may get hotter than is known.
# A rule of this project. [h]
_HOT_BEFORE, _HOT_AFTER = timedelta(hours=1), timedelta(hours=5)

# Nothing is said of heat on a day on which it nowhere feels like more. In the months of the
# cotton's season it is: there such numbers may be °C. Rules of this project. [°F], [month]
COLD_UNDER_F = 60.0
_WARM_MONTHS = {False: (5, 6, 7, 8, 9), True: (11, 12, 1, 2, 3)}
_DAMPEST = 100.0  # [%]


@dataclass(frozen=True, slots=True)
class WalkDay:
    """One day as it matters to whoever walks.

    Parameters
    ----------
    on : date
        The day.
    zone : str or None
        Name of the clock's time zone; None for this machine's clock.
    sunrise, sunset : datetime or None
        None where the sun does not rise, or does not set, all day.
    overhead : (datetime, datetime) or None
        While the shadow can't be kept off the plants.
    hours : tuple of ShadowHour
        The sun, by the hour.
    heat : DayHeat
        What is known of the heat in those hours, by one station.
    noon : datetime
        When the sun stands highest.
    humidity_given : bool
        Whether a humidity was given at all, be it of another day.
    south : bool
        Whether the walk is south of the equator.
    """

    on: date
    zone: str | None
    sunrise: datetime | None
    sunset: datetime | None
    overhead: tuple[datetime, datetime] | None
    hours: tuple[ShadowHour, ...]
    heat: DayHeat
    noon: datetime
    humidity_given: bool
    south: bool

    @property
    def feels(self) -> tuple[float, ...]:
        """Heat index of each hour, to the whole degree; NaN where it is not known. [°F]"""
        return self.heat.feels

    @property
    def hottest(self) -> int | None:
        """Place of the hour with the highest heat index; None where none is known. [from 0]"""
        known = [place for place, felt in enumerate(self.feels) if felt == felt]
        return max(known, key=self.feels.__getitem__, default=None)

    @property
    def may_get_hotter(self) -> bool:
        """Whether an hour that is not known may be hotter than all that are."""
        unknown = [felt != felt for felt in self.feels]
        hot = [-_HOT_BEFORE <= hour.at - self.noon <= _HOT_AFTER for hour in self.hours]
        if any(map(all, zip(unknown, hot, strict=True))):
            return True
        top = self.hottest
        return top is not None and any(unknown[max(0, top - 1) : top + 2])

    @property
    def cautions(self) -> tuple[str, ...]:
        """What is to be said of the heat; nothing without sun, nor on a cold day."""
        if not self.hours or self._is_cold:
            return ()
        whose = (self.heat.told,) if self.heat.told else ()
        if self.hottest is None:
            lack = "of this day they are not known" if self.humidity_given else "they are not given"
            why = f"How hot it feels takes temperature and humidity by the hour, and {lack}."
            return (why, *whose, *cautions_without_number(self.heat.air_f))
        said = heat_cautions(
            self.feels[self.hottest],
            at=clock_words(self.hours[self.hottest].at),
            known=listed(self._known_spans()) if self.may_get_hotter else "",
        )
        return (*whose, *said)

    @property
    def _is_cold(self) -> bool:
        """Whether no hour feels like 60 °F and more, in months in which that can be."""
        if self.on.month in _WARM_MONTHS[self.south]:
            return False
        if self.hottest is not None and not self.may_get_hotter:
            return self.feels[self.hottest] < COLD_UNDER_F
        return float(heat_index(self.heat.top_f, _DAMPEST)) < COLD_UNDER_F

    def _known_spans(self) -> list[str]:
        """Word the hours whose heat is known, those in a row together."""
        known = enumerate(zip(self.hours, self.feels, strict=True))
        runs: dict[int, list[str]] = {}
        for number, (place, hour) in enumerate(
            (place, hour) for place, (hour, felt) in known if felt == felt
        ):
            runs.setdefault(place - number, []).append(clock_words(hour.at))
        return [run[0] if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs.values()]


def clock_words(at: datetime) -> str:
    """Write a time to the minute that is nearest.

    Parameters
    ----------
    at : datetime
        The time.

    Returns
    -------
    str
        Such as ``7:05``.
    """
    rounded = nearest_minute(at)
    return f"{rounded.hour}:{rounded.minute:02d}"


def walk_day(
    on: date,
    place: Place | None,
    hourly: Sequence[HourlyWeather],
    daily: Sequence[DailyWeather],
    *,
    zone: str | None = None,
) -> WalkDay:
    """Work out sun and heat of a day.

    Parameters
    ----------
    on : date
        The day, by the clock of the field.
    place : (float, float) or None
        Longitude and latitude. [degrees]
    hourly : sequence of HourlyWeather
        Hours with humidity by the clock of the field; may be empty.
    daily : sequence of DailyWeather
        Days of each station, of those with hours too.
    zone : str or None
        Its time zone, such as ``America/Chicago``; None for this machine's.

    Returns
    -------
    WalkDay

    Raises
    ------
    UsageError
        If no place is known, or no zone of that name.
    """
    if place is None:
        raise UsageError("--walk-on needs a place: give --near, or a station that tells its own.")
    clock = _own_clock(on) if zone is None else named_zone(zone)
    try:
        events = sun_events(on, place, clock)
        hours = shadow_day(on, place, clock, _STEP)
        overhead = overhead_span(on, place, clock)
    except WeatherError as error:
        raise UsageError(f"--near: {error}") from None
    heat = day_heat([hour.at for hour in hours], place, hourly, daily)
    given = any(bool(np.isfinite(station.humidity).any()) for station in hourly)
    south = place[1] < 0.0
    return WalkDay(
        on, zone, events.sunrise, events.sunset, overhead, hours, heat, events.noon, given, south
    )


def _own_clock(on: date) -> tzinfo:
    own = datetime.combine(on, time(12)).astimezone().tzinfo
    if own is None:
        raise UsageError("this machine has no time zone: give that of the field with --zone.")
    return own
