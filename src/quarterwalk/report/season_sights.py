"""What of one field's season somebody saw: the events that are known by sight."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from quarterwalk.crop import CropClock, Event, Given, Seen
from quarterwalk.crop.clock import without
from quarterwalk.crop.window import windows_of


def first_sight(clock: CropClock, event: Event) -> date | None:
    """Give the first day on which it was seen that an event had come.

    Parameters
    ----------
    clock : CropClock
        The season.
    event : Event
        Which.

    Returns
    -------
    date or None
        None where nobody saw it; what was set aside is no sight.
    """
    return min(_sights(clock, event), default=None)


def _sights(clock: CropClock, event: Event) -> Iterator[date]:
    aside = {(each.sign, each.on) for each in clock.set_aside}
    windows = windows_of(clock.planted, Given(), clock.seen, clock.needs, on=clock.on)
    for window in windows:
        told = window.event is event and window.last is not None
        if told and (window.sign, window.on) not in aside:
            yield window.on


def looked(clock: CropClock) -> bool:
    """Tell whether anybody looked for anything, whether it counts or not."""
    return any(each.tells for each in clock.seen)


def counted_days(clock: CropClock) -> list[date]:
    """Give the days on which something was seen that counts.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    list of date
        In their order; without the days of which all is set aside.
    """
    return sorted({each.on for each in clock.seen if without(each, clock.set_aside).tells})


def cut_out(clock: CropClock) -> Seen | None:
    """Give the first look at which a field had cut out.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    Seen or None
        With its count of nodes above white flower; None where nobody counted so few.
    """
    most = clock.needs.value("cutout_nodes")
    looks = (without(each, clock.set_aside) for each in clock.seen)
    return next((each for each in looks if each.nawf is not None and each.nawf <= most), None)
