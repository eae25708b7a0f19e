"""The look that a spray asks for; it goes before the one that the walk before it asked for."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from quarterwalk.call.verdict import Look
from quarterwalk.guideline import load_routine


def look_after_spray(walked: date, treated: Iterable[date]) -> Look | None:
    """Give the next look at a field that was sprayed since its newest walk.

    Parameters
    ----------
    walked : date
        The day of that walk. A spray of the same day comes after it, as a call takes it too.
    treated : iterable of date
        Days of sprays against the insects, none of them later than the day asked for.

    Returns
    -------
    Look or None
        So many days after the last spray as the routine says; None where nobody sprayed since.
    """
    sprayed = max((day for day in treated if day >= walked), default=None)
    if sprayed is None:
        return None
    soonest, latest = (sprayed + timedelta(days=days) for days in load_routine().treated)
    return Look(soonest, latest)
