"""What a walk sheet says of the sun: which way to walk in, and when it stands overhead."""

from __future__ import annotations

from datetime import UTC, tzinfo

from quarterwalk.field import Layout
from quarterwalk.weather.shadow import overhead_span
from quarterwalk.weather.sun import nearest_minute
from quarterwalk.words import phrase


def sun_line(layout: Layout, zone: tzinfo | None) -> str:
    """Say how to keep one's shadow off the plants on the day of a walk.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk; the sun is that of its day, at its entry.
    zone : tzinfo or None
        Of the clocks there; where it is not known, the shadow itself tells.

    Returns
    -------
    str
        One line, in the language spoken.
    """
    high = overhead_span(layout.on, layout.entry, zone or UTC)
    if high is None:
        return phrase("Walk in facing the sun: your shadow falls behind you.")
    if zone is None:
        # an arm is at hand where no clock is known: that is how overhead is reckoned
        return phrase(
            "Walk in facing the sun: your shadow falls behind you. While it is shorter than"
            " your arm, around midday, lean back from the plant."
        )
    start, end = map(nearest_minute, high)
    return phrase(
        "Walk in facing the sun: your shadow falls behind you. From {start} to {end} the sun"
        " is overhead: lean back from the plant.",
        start=f"{start:%H:%M}",
        end=f"{end:%H:%M}",
    )
