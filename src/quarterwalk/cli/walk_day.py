"""Sun and heat of one day for whoever walks: where the shadow falls, and how hot it feels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from zoneinfo import ZoneInfo

from quarterwalk.call.figures import day_words
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.errors import UsageError
from quarterwalk.units import FOOT_M
from quarterwalk.weather.daily import WeatherError
from quarterwalk.weather.heat_index import heat_index
from quarterwalk.weather.heat_risk import HeatBand, heat_band, heat_cautions
from quarterwalk.weather.hourly import HourlyWeather
from quarterwalk.weather.shadow import ShadowHour, overhead_span, shadow_day
from quarterwalk.weather.station import Place
from quarterwalk.weather.sun import sun_events

_STEP = 60  # [minutes]

_BANDS = {
    HeatBand.LOWER: "lower",
    HeatBand.MODERATE: "moderate",
    HeatBand.HIGH: "high",
    HeatBand.VERY_HIGH: "very high",
}


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
    feels : tuple of float
        Heat index of each of those hours, to the whole degree, so that its band is that of
        the number told; NaN where temperature and humidity are not both known. [°F]
    """

    on: date
    zone: str | None
    sunrise: datetime | None
    sunset: datetime | None
    overhead: tuple[datetime, datetime] | None
    hours: tuple[ShadowHour, ...]
    feels: tuple[float, ...]

    @property
    def hottest(self) -> float:
        """The highest heat index of the hours that are known; NaN where none is. [°F]"""
        return max((felt for felt in self.feels if felt == felt), default=float("nan"))


def walk_day(
    on: date, place: Place | None, hourly: Sequence[HourlyWeather], *, zone: str | None = None
) -> WalkDay:
    """Work out sun and heat of a day.

    Parameters
    ----------
    on : date
        The day, by the clock of the field.
    place : (float, float) or None
        Longitude and latitude. [degrees]
    hourly : sequence of HourlyWeather
        Hours with humidity by the clock of the field, the nearest station first; may be
        empty.
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
    clock = _clock_of(zone, on)
    try:
        events = sun_events(on, place, clock)
        hours = shadow_day(on, place, clock, _STEP)
        overhead = overhead_span(on, place, clock)
    except WeatherError as error:
        raise UsageError(f"--near: {error}") from None
    feels = tuple(_feels(hour.at, hourly) for hour in hours)
    return WalkDay(on, zone, events.sunrise, events.sunset, overhead, hours, feels)


def _clock_of(zone: str | None, on: date) -> tzinfo:
    if zone is not None:
        try:
            return ZoneInfo(zone)
        except (KeyError, ValueError, OSError):
            raise UsageError(
                f'--zone must be the name of a time zone, such as America/Chicago, got "{zone}".'
            ) from None
    own = datetime.combine(on, time(12)).astimezone().tzinfo
    if own is None:
        raise UsageError("this machine has no time zone: give that of the field with --zone.")
    return own


def _feels(at: datetime, hourly: Sequence[HourlyWeather]) -> float:
    clock = at.replace(tzinfo=None)
    for station in hourly:
        place = station.index_of(clock)
        if 0 <= place < station.temp_f.size:
            felt = float(heat_index(station.temp_f[place], station.humidity[place]))
            if felt == felt:
                return round(felt, 0)
    return float("nan")


def print_walk_day(told: WalkDay) -> None:
    """Print sun and heat of a day.

    Parameters
    ----------
    told : WalkDay
        The day.
    """
    print(inked(f"Walking on {day_words(told.on)} {told.on.year}", Ink.HEAD))
    for sentence in _sun(told):
        say(sentence, indent=2)
    if told.hours:
        _print_hours(told)
        for sentence in heat_cautions(told.hottest) or (_NO_HUMIDITY,):
            say(sentence, indent=2)
    say()


def _print_hours(told: WalkDay) -> None:
    print(f"\n  {'time':<8}{'face':>6}{'shadow':>10}{'feels like':>13}  heat")
    for hour, felt in zip(told.hours, told.feels, strict=True):
        print(f"  {_clock(hour.at):<8}{_sun_of(hour)}{_heat_of(felt)}".rstrip())
    say()


_NO_HUMIDITY = (
    "How hot it feels takes temperature and humidity by the hour, and they are not given."
    " Whatever the number: carry water, drink before you are thirsty, rest in the shade."
)


def _sun(told: WalkDay) -> Iterator[str]:
    yield _rise_and_set(told)
    if not told.hours:
        return
    yield "Walk in facing the sun, so that your shadow falls behind you and off the plants."
    if told.overhead is not None:
        first, last = map(_clock, told.overhead)
        yield (
            f"From {first} to {last} it stands too high for that: lean back from the plant,"
            " or walk earlier or later."
        )


def _rise_and_set(told: WalkDay) -> str:
    whose = "this machine's clock" if told.zone is None else f"the clock of {told.zone}"
    if told.sunrise is None or told.sunset is None:
        if told.hours:
            return f"The sun does not set on this day; the times are those of {whose}."
        return "The sun does not rise on this day, so there is no shadow to tell."
    zone = told.sunrise.tzname()
    rise, down = _clock(told.sunrise), _clock(told.sunset)
    low = "" if told.hours else "; at no full hour does its middle stand above the horizon"
    return f"The sun rises at {rise} and sets at {down}, by {whose} ({zone}){low}."


def _sun_of(hour: ShadowHour) -> str:
    feet = hour.shadow_m / float(FOOT_M)
    shadow = "overhead" if hour.overhead else f"{feet:.0f} ft"
    return f"{hour.heading:>5.0f}°{shadow:>10}"


def _heat_of(felt: float) -> str:
    band = heat_band(felt)
    return "" if band is None else f"{felt:>10.0f} °F  {_BANDS[band]}"


def _clock(at: datetime) -> str:
    rounded = at + timedelta(seconds=30)
    return f"{rounded.hour}:{rounded.minute:02d}"


def walk_day_json(told: WalkDay) -> dict[str, object]:
    """Give sun and heat of a day as JSON-able values.

    Parameters
    ----------
    told : WalkDay
        The day.

    Returns
    -------
    dict
        Times with their zone; what is not known is None.
    """
    return {
        "date": told.on.isoformat(),
        "zone": told.zone,
        "sunrise": _iso(told.sunrise),
        "sunset": _iso(told.sunset),
        "overhead": None if told.overhead is None else list(map(_iso, told.overhead)),
        "hours": [
            {
                "time": _iso(hour.at),
                "face": hour.heading,
                "elevation": hour.elevation,
                "shadow_m": hour.shadow_m,
                "overhead": hour.overhead,
                "heat_index_f": felt if felt == felt else None,
                "heat": None if (band := heat_band(felt)) is None else band.value,
            }
            for hour, felt in zip(told.hours, told.feels, strict=True)
        ],
        "cautions": list(heat_cautions(told.hottest)),
    }


def _iso(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat(timespec="seconds")
