"""What to look at in a field so that its season is known better."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from quarterwalk.call.clock_told import BRANCHES_TELL
from quarterwalk.crop import RANGE, CropClock, Event
from quarterwalk.crop.clock import without
from quarterwalk.report.season_stands import likeliest
from quarterwalk.words import phrase

# Told with less than this, the week is worth a count (a rule of this project). [fraction]
_SURE_ENOUGH = 0.8

# So long nodes above white flower are not counted again: they fall by one in about as many
# days (a rule of this project). [days]
_COUNTED_LATELY = 3

# A doubt smaller than this is not worth a count (a rule of this project). [fraction]
_WORTH_A_COUNT = 0.1

# So long after first square nearly every plant has its pinhead, and their share tells
# nothing more: some 75 DD60, three to five days (a rule of this
# project, from `plants_heat` of the needs). [days]
_PINHEADS_TELL = 5


def what_settles(clock: CropClock, *, replanted: bool = False) -> tuple[str, ...]:
    """Say what to look at, where the season is in doubt.

    Parameters
    ----------
    clock : CropClock
        The season.
    replanted : bool
        Whether an earlier stand was planted over.

    Returns
    -------
    tuple of str
        Sentences, in the language spoken; none where nothing is in doubt.
    """
    return tuple(_settles(clock, replanted=replanted))


def _settles(clock: CropClock, *, replanted: bool) -> Iterator[str]:
    events = {each.event for each in clock.disagreements}
    unsure = likeliest(clock) < _SURE_ENOUGH
    at_odds = Event.FIRST_SQUARE in events
    if clock.weeks.blooming < 1 / 2 and (unsure or at_odds):
        yield from _squares(clock, at_odds=at_odds)
    in_doubt = Event.FIRST_BLOOM in events or (unsure and _bloom_may_have_come(clock))
    if in_doubt and not _flower_known(clock):
        yield phrase("Look for the first white flower.")
    if Event.CUTOUT in events and not _nodes_counted_lately(clock):
        yield phrase("Count the nodes above white flower on five plants in each quarter.")
    if events & {Event.EMERGENCE, Event.FIRST_SQUARE, Event.FIRST_BLOOM}:
        yield _day_of_planting(replanted=replanted)


def _day_of_planting(*, replanted: bool) -> str:
    if replanted:
        return phrase("Make sure of the day of replanting.")
    return phrase(
        "Make sure of the day of planting; where the stand was planted again, that day counts."
    )


def _squares(clock: CropClock, *, at_odds: bool) -> Iterator[str]:
    """Ask for the counts that still tell the week, but for those of the day itself."""
    today = [each for each in clock.seen if each.on == clock.on]
    counted = any(each.squaring_branches is not None for each in today)
    if not counted and _squaring_may_have_begun(clock) and (at_odds or _days_left(clock)):
        yield phrase(
            "Count the fruiting branches with a square, or with the scar of a lost one, on five"
            " plants in each quarter: 1 or 2 are about week 1 of squaring, 3 or 4 week 2, 5 and"
            " more week 3."
        )
    if all(each.share is None for each in today) and _pinheads_tell(clock, at_odds=at_odds):
        yield _pinheads(clock.needs.value("half"))


def _squaring_may_have_begun(clock: CropClock) -> bool:
    return clock.odds[Event.FIRST_SQUARE].by(clock.on) >= _WORTH_A_COUNT


def _days_left(clock: CropClock) -> bool:
    """Tell whether first square is on more days than a count of squares leaves."""
    days = clock.odds[Event.FIRST_SQUARE].within(RANGE)
    return days is None or (days[1] - days[0]).days + 1 >= BRANCHES_TELL


def _pinheads_tell(clock: CropClock, *, at_odds: bool) -> bool:
    """Tell whether part of the plants may be without a square, and their share says more."""
    since = clock.on - timedelta(days=_PINHEADS_TELL)
    open_still = 1 - clock.odds[Event.FIRST_SQUARE].by(since) >= _WORTH_A_COUNT
    return open_still and (at_odds or _days_left(clock))


def _flower_known(clock: CropClock) -> bool:
    """Tell whether bloom was given, a flower was seen, or one was looked for on the day."""
    if clock.given.bloom is not None:
        return True
    looks = [without(each, clock.set_aside) for each in clock.seen]
    if any(each.bloom or each.nawf is not None for each in looks):
        return True
    return any(each.on == clock.on and each.bloom is not None for each in clock.seen)


def _nodes_counted_lately(clock: CropClock) -> bool:
    since = clock.on - timedelta(days=_COUNTED_LATELY)
    return any(each.on >= since and each.nawf is not None for each in clock.seen)


def _pinheads(share: float) -> str:
    if share == 1 / 2:
        return phrase(
            "Count how many plants have a pinhead square: first square is the day on which half"
            " of them do."
        )
    return phrase(
        "Count how many plants have a pinhead square: first square is the day on which {share}"
        " of 100 do.",
        share=f"{100 * share:g}",
    )


def _bloom_may_have_come(clock: CropClock) -> bool:
    return clock.bloom is None and clock.weeks.blooming >= _WORTH_A_COUNT
