"""What comes next in a field's season: when to begin, to look closest, and to stop."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.crop.clock import RANGE, CropClock
from quarterwalk.crop.needs import Event
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS, load_routine

# Host weeds are told by the edges of a range that leaves out 1 in 20 on its side, since
# sending the insects into squaring cotton can't be undone (a rule of this project). [fraction]
_EDGE = 0.05


@dataclass(frozen=True, slots=True)
class Outlook:
    """Days to plan by; None where they lie past the season that the clock runs.

    Parameters
    ----------
    begin : (date, date) or None
        When walks begin: the fourth true leaf, 8 in 10.
    closest : (date, date) or None
        The closest watch: three weeks from the likely first square.
    bloom : (date, date) or None
        First bloom, 8 in 10; this insect seldom matters after it.
    weeds_until : date or None
        The last safe day to clear host weeds before squaring.
    weeds_again : date or None
        The earliest day to clear them again, after bloom.
    """

    begin: tuple[date, date] | None
    closest: tuple[date, date] | None
    bloom: tuple[date, date] | None
    weeds_until: date | None
    weeds_again: date | None


def outlook_of(clock: CropClock) -> Outlook:
    """Give the days to plan by.

    Parameters
    ----------
    clock : CropClock
        Where the season stands.

    Returns
    -------
    Outlook
        By the clock's own ranges.
    """
    square, bloom = clock.odds[Event.FIRST_SQUARE], clock.odds[Event.FIRST_BLOOM]
    # a range that was given binds from its first day on, whatever the weather says inside it
    given = clock.given.first_square or ()
    days = (square.reached(_EDGE), *given[:1], *clock.squares_seen)
    earliest = min((day for day in days if day is not None), default=None)
    return Outlook(
        begin=clock.four_leaves.within(RANGE),
        closest=_closest(square.likely),
        bloom=bloom.within(RANGE),
        weeds_until=None if earliest is None else earliest - timedelta(days=1),
        weeds_again=bloom.reached(1.0 - _EDGE),
    )


def _closest(first: date | None) -> tuple[date, date] | None:
    if first is None:
        return None
    days = CLOSEST_WATCH_WEEKS * load_routine().week_days
    return first, first + timedelta(days=days - 1)
