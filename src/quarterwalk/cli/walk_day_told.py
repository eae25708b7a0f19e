"""Sun and heat of one day as they are told: on the screen, and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from quarterwalk.call.figures import day_words
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.cli.walk_day import WalkDay, clock_words
from quarterwalk.units import FOOT_M
from quarterwalk.weather.heat_risk import HeatBand, heat_band
from quarterwalk.weather.shadow import ShadowHour

# A longer shadow lies behind whatever way one faces near the sun; its length tells no more.
# [feet]
_LONGEST_TOLD = 100

_BANDS = {
    HeatBand.LOWER: "lower",
    HeatBand.MODERATE: "moderate",
    HeatBand.HIGH: "high",
    HeatBand.VERY_HIGH: "very high",
}


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
        for sentence in told.cautions:
            say(sentence, indent=2)
    say()


def _print_hours(told: WalkDay) -> None:
    heat = told.hottest is not None
    print(f"\n  {'time':<8}{'face':>6}{'shadow':>13}" + (f"{'feels like':>13}  heat" * heat))
    for hour, felt in zip(told.hours, told.feels, strict=True):
        print(f"  {clock_words(hour.at):<8}{_sun_of(hour)}{_heat_of(felt)}".rstrip())
    say()


def _sun(told: WalkDay) -> Iterator[str]:
    yield _rise_and_set(told)
    if not told.hours:
        return
    yield "Walk in facing the sun, so that your shadow falls behind you and off the plants."
    if told.overhead is not None:
        first, last = map(clock_words, told.overhead)
        yield (
            f"From {first} to {last} the sun stands too high for that: lean back from the"
            " plant, or walk earlier or later."
        )


def _rise_and_set(told: WalkDay) -> str:
    whose = "this machine's clock" if told.zone is None else f"the clock of {told.zone}"
    if told.sunrise is None or told.sunset is None:
        if told.hours:
            return f"The sun does not set on this day; the times are those of {whose}."
        return "The sun does not rise on this day, so there is no shadow to tell."
    zone = told.sunrise.tzname()
    rise, down = clock_words(told.sunrise), clock_words(told.sunset)
    low = "" if told.hours else "; at no full hour does its middle stand above the horizon"
    return f"The sun rises at {rise} and sets at {down}, by {whose} ({zone}){low}."


def _sun_of(hour: ShadowHour) -> str:
    feet = hour.shadow_m / float(FOOT_M)
    told = f"over {_LONGEST_TOLD}" if round(feet) > _LONGEST_TOLD else f"{feet:.0f}"
    shadow = "overhead" if hour.overhead else f"{told} ft"
    return f"{hour.heading:>5.0f}°{shadow:>13}"


def _heat_of(felt: float) -> str:
    band = heat_band(felt)
    return "" if band is None else f"{felt:>10.0f} °F  {_BANDS[band]}"


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
        "cautions": list(told.cautions),
    }


def _iso(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat(timespec="seconds")
