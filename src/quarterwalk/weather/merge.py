"""A station's days from a later file laid over those of an earlier one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from quarterwalk.weather.daily import DailyWeather, DayMark
from quarterwalk.weather.station import Station

# Days are the same where both temperatures are nearer than this: files round to a tenth of
# a degree Celsius (a rule of this project). [°F]
SAME_F = 0.2


@dataclass(frozen=True, slots=True, eq=False)
class Merged:
    """A station's days after a file, and what the file changed.

    Parameters
    ----------
    weather : DailyWeather
        The days.
    added : int
        Days that were missing before. [days]
    changed : int
        Days that were measured before, and otherwise. [days]
    measured : int
        Days that were forecast or filled before, and are measured now. [days]
    since : date or None
        The first day that is another now; None where nothing is.
    """

    weather: DailyWeather
    added: int
    changed: int
    measured: int
    since: date | None


def merged(before: DailyWeather | None, after: DailyWeather) -> Merged:
    """Lay a station's newer file over what is here: what was measured is never lost.

    Parameters
    ----------
    before : DailyWeather or None
        What is here.
    after : DailyWeather
        What the file tells.

    Returns
    -------
    Merged
        A measured day beats any other; of two that are alike the file's holds.
    """
    if before is None:
        return Merged(after, int(np.count_nonzero(~after.missing)), 0, 0, after.first)
    first, last = min(before.first, after.first), max(before.last, after.last)
    old, new = before.between(first, last), after.between(first, last)
    known, told = old.marks == DayMark.MEASURED, new.marks == DayMark.MEASURED
    take = ~new.missing & (told | ~known)
    off = np.maximum(np.abs(old.tmin_f - new.tmin_f), np.abs(old.tmax_f - new.tmax_f))
    weather = DailyWeather(
        _both(before.station, after.station),
        first,
        np.where(take, new.tmin_f, old.tmin_f),
        np.where(take, new.tmax_f, old.tmax_f),
        np.where(take, new.marks, old.marks),
    )
    return Merged(
        weather,
        added=int(np.count_nonzero(take & old.missing)),
        changed=int(np.count_nonzero(known & told & (off > SAME_F))),
        measured=int(np.count_nonzero(told & ~known & ~old.missing)),
        since=_since(old, weather),
    )


def _since(old: DailyWeather, new: DailyWeather) -> date | None:
    if old.station != new.station:
        return new.first
    other = (old.marks != new.marks) | (old.tmin_f != new.tmin_f) | (old.tmax_f != new.tmax_f)
    places = np.flatnonzero(other & ~new.missing)
    return new.day_at(int(places[0])) if places.size else None


def _both(before: Station, after: Station) -> Station:
    """Take what either says of a station, the newer file first."""
    return replace(
        after,
        name=after.name or before.name,
        place=after.place or before.place,
        elevation_m=before.elevation_m if after.elevation_m is None else after.elevation_m,
    )
