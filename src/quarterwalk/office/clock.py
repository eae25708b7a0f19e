"""The office's clock: the only place that asks for the time."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.conf import settings
from django.utils import timezone

from quarterwalk.office.models import District


def now() -> datetime:
    """Give the time at the office.

    Returns
    -------
    datetime
        With a zone; in the demo it lies in the demo's season.
    """
    return timezone.now() + timedelta(milliseconds=settings.SHIFT_MS)


def today(district: District) -> date:
    """Give the day in a district.

    Parameters
    ----------
    district : District
        Its time zone decides.

    Returns
    -------
    date
    """
    return now().astimezone(ZoneInfo(district.time_zone)).date()
