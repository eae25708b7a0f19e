"""The sun of the card's day: which way to face at each half hour, and what is said about it."""

from __future__ import annotations

from datetime import datetime, time, timedelta, timezone, tzinfo
from typing import Any

from quarterwalk.field import Layout
from quarterwalk.weather.shadow import STEP_MINUTES, overhead_span
from quarterwalk.weather.sun import nearest_minute, sun_events, sun_position
from quarterwalk.words import phrase, phrase_as

Json = dict[str, Any]
Span = tuple[int, int]
"""Two times of the day. [minutes since midnight]"""

# Further from the sun than this, a scout who follows the rows has the shadow on the next row
# rather than behind (a rule of this project). [degrees]
ACROSS = 60
# How wide each of the eight directions is that have a name. [degrees]
EIGHTH = 45


def sun_of(layout: Layout, zone: tzinfo | None) -> Json | None:
    """Tell the sun through the daylight of the day, where the scout enters the field.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk; the sun is that of its day.
    zone : tzinfo or None
        Of the times that are told; None where it is not known.

    Returns
    -------
    dict or None
        Ready for JSON, in the language spoken. None without a zone, and where the sun does
        not rise and set on that day by the zone's clock.
    """
    if zone is None:
        return None
    day, place = layout.on, layout.entry
    events = sun_events(day, place, zone)
    # one offset for the whole of the daylight: the clocks change at night
    clock = timezone(events.noon.utcoffset() or timedelta())
    rise, down = (
        _on_the_day(events.sunrise, layout, clock),
        _on_the_day(events.sunset, layout, clock),
    )
    if rise is None or down is None:
        return None
    span = overhead_span(day, place, clock)
    high = None if span is None else (nearest_minute(span[0]), nearest_minute(span[1]))
    overhead = None if high is None else (_minute(high[0]), _minute(high[1]))
    return {
        "offset": clock.utcoffset(None) // timedelta(minutes=1),
        "rows": _rows(layout, clock, (rise, down), overhead),
        "sunset": down,
        "overhead": None if overhead is None else list(overhead),
        "compass": _compass(),
        "texts": {
            "facing": _facing(),
            "overhead": "" if high is None else _leaning(high),
            "along": [] if layout.field.rows is None else _along_words(layout.field.rows),
        },
    }


def _on_the_day(moment: datetime | None, layout: Layout, clock: tzinfo) -> int | None:
    """Give a time of the layout's own day; none where it falls on the day beside it."""
    if moment is None:
        return None
    at = nearest_minute(moment.astimezone(clock))
    return _minute(at) if at.date() == layout.on else None


def _minute(at: datetime) -> int:
    return at.hour * 60 + at.minute


def _rows(layout: Layout, clock: tzinfo, light: Span, overhead: Span | None) -> list[list[Any]]:
    """Give a row where something begins: the daylight, a half hour, the sun overhead or no more.

    So whoever looks for the last row at or before a time finds what holds then.
    """
    rise, down = light
    high = overhead or (rise, rise)
    halves = range(-(-rise // STEP_MINUTES) * STEP_MINUTES, down, STEP_MINUTES)
    minutes = sorted({rise, *high, *halves})
    midnight = datetime.combine(layout.on, time.min, clock)
    times = [midnight + timedelta(minutes=minute) for minute in minutes]
    headings = sun_position(times, layout.entry).azimuth
    rows = []
    for minute, heading in zip(minutes, map(float, headings), strict=True):
        over = high[0] <= minute < high[1]
        along = None if over else _along(heading, layout.field.rows)
        rows.append([minute, round(heading) % 360, _eighth(heading), int(over), along])
    return rows


def _eighth(heading: float) -> int:
    return round(heading / EIGHTH) % 8


def _along(heading: float, rows: float | None) -> int | None:
    """Choose what is said of the rows: 0 and 1 go one way and the other, 2 is across the sun."""
    if rows is None:
        return None
    off = abs((heading - rows + 180) % 360 - 180)
    if min(off, 180 - off) > ACROSS:
        return 2
    return 0 if off <= ACROSS else 1


def _compass() -> list[str]:
    return [
        phrase_as("heading", "north"),
        phrase_as("heading", "north-east"),
        phrase_as("heading", "east"),
        phrase_as("heading", "south-east"),
        phrase_as("heading", "south"),
        phrase_as("heading", "south-west"),
        phrase_as("heading", "west"),
        phrase_as("heading", "north-west"),
    ]


def _facing() -> str:
    """Word the way to face, its two gaps left for whoever looks a row up."""
    return phrase(
        "Walk in facing the sun, {compass} ({degrees}°). Your shadow falls behind you.",
        compass="{compass}",
        degrees="{degrees}",
    )


def _leaning(high: tuple[datetime, datetime]) -> str:
    start, end = high
    return phrase(
        "The sun is overhead from {start} to {end}: your shadow can't be kept off the plants."
        " Lean back from the plant.",
        start=f"{start:%H:%M}",
        end=f"{end:%H:%M}",
    )


def _along_words(rows: float) -> list[str]:
    compass = _compass()
    ways = [
        phrase(
            "Along the rows, face {compass} ({degrees}°).",
            compass=compass[_eighth(way)],
            degrees=round(way) % 360,
        )
        for way in (rows, rows + 180)
    ]
    across = phrase("The rows run across the sun: look at the row on the sun's side.")
    return [*ways, across]
