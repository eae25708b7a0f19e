"""What a walk sheet says of the sun: which way to walk in, and when it stands overhead."""

from __future__ import annotations

from datetime import UTC, timedelta, tzinfo

from quarterwalk.field import Layout
from quarterwalk.weather.shadow import overhead_span
from quarterwalk.words import phrase

# Times before and after noon are told to this (a rule of this project). [minutes]
TOLD_TO = 10


def sun_line(layout: Layout, zone: tzinfo | None) -> str:
    """Say how to keep one's shadow off the plants on the day of a walk.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk; the sun is that of its day, at its entry.
    zone : tzinfo or None
        Of the clocks there; where it is not known, times are told from the sun's own noon.

    Returns
    -------
    str
        One line, in the language spoken.
    """
    high = overhead_span(layout.on, layout.entry, zone or UTC)
    if high is None:
        return phrase("Walk in facing the sun: your shadow falls behind you.")
    start, end = high
    if zone is not None:
        return phrase(
            "Walk in facing the sun: your shadow falls behind you. From {start} to {end} the sun"
            " is overhead: lean back from the plant.",
            start=f"{start:%H:%M}",
            end=f"{end:%H:%M}",
        )
    half = (end - start) / 2
    return phrase(
        "Walk in facing the sun: your shadow falls behind you. Within {minutes} minutes of the"
        " sun's highest point lean back from the plant.",
        minutes=TOLD_TO * max(1, round(half / timedelta(minutes=TOLD_TO))),
    )
