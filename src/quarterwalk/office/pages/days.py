"""Days and times as people say them."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo


def short_day(day: date) -> str:
    """Write a day without its weekday.

    Parameters
    ----------
    day : date
        The day.

    Returns
    -------
    str
        Such as ``24 June``.
    """
    return f"{day.day} {day:%B}"


def near_day(day: date) -> str:
    """Write a day with its weekday, briefly.

    Parameters
    ----------
    day : date
        The day.

    Returns
    -------
    str
        Such as ``Fri 3 July``.
    """
    return f"{day:%a} {day.day} {day:%B}"


def days_range(first: date, last: date) -> str:
    """Write a range of days.

    Parameters
    ----------
    first, last : date
        Both belong to it.

    Returns
    -------
    str
        Such as ``1 to 2 July``, or ``30 June to 1 July``.
    """
    same = (first.year, first.month) == (last.year, last.month)
    return f"{first.day if same else short_day(first)} to {short_day(last)}"


def moment(at: datetime, zone: str) -> str:
    """Write a time in a district's own zone.

    Parameters
    ----------
    at : datetime
        The time.
    zone : str
        Name of the zone. [IANA name]

    Returns
    -------
    str
        Such as ``1 July, 10:52``.
    """
    there = at.astimezone(ZoneInfo(zone))
    return f"{short_day(there.date())}, {there:%H:%M}"


def days_late(count: int) -> str:
    """Say by how much a look is late.

    Parameters
    ----------
    count : int
        Days since its last good day. [days]

    Returns
    -------
    str
        Such as ``5 days late``.
    """
    return "1 day late" if count == 1 else f"{count} days late"
