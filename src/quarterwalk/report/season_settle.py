"""What to look at in a field so that its season is known better."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from quarterwalk.crop import CropClock, Event, load_needs
from quarterwalk.report.season_stands import likeliest
from quarterwalk.words import phrase

# Told with less than this, the week is worth a count (a rule of this project). [fraction]
_SURE_ENOUGH = 0.8


def what_settles(clock: CropClock) -> tuple[str, ...]:
    """Say what to look at, where the season is in doubt.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    tuple of str
        Sentences, in the language spoken; none where nothing is in doubt.
    """
    return tuple(_settles(clock))


def _settles(clock: CropClock) -> Iterator[str]:
    events = {each.event for each in clock.disagreements}
    unsure = likeliest(clock) < _SURE_ENOUGH
    squaring = clock.weeks.blooming < 1 / 2 and (unsure or Event.FIRST_SQUARE in events)
    if squaring:
        yield phrase(
            "Count the squaring branches of five plants in each quarter: 1 or 2 are about week 1"
            " of squaring, 3 or 4 week 2, 5 and more week 3."
        )
        yield _pinheads(clock.needs.value("half"))
    if Event.FIRST_BLOOM in events or (unsure and _bloom_may_have_come(clock)):
        yield phrase("Look for the first white flower.")
    if Event.CUTOUT in events:
        yield phrase("Count the nodes above white flower on five plants in each quarter.")
    if events & {Event.EMERGENCE, Event.FIRST_SQUARE}:
        yield phrase(
            "Make sure of the day of planting; where the stand was planted again, that day counts."
        )


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
    likely = clock.odds[Event.FIRST_SQUARE].likely
    after = timedelta(days=load_needs().value("look_for_bloom_after"))
    return clock.bloom is None and likely is not None and clock.on >= likely + after
