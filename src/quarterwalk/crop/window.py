"""Days that what was seen leaves to an event, and which of two that clash holds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.crop.needs import Event, Needs
from quarterwalk.crop.seen import Given, Seen, Sign


@dataclass(frozen=True, slots=True)
class Window:
    """Days on which an event can have been, given one thing that was seen.

    Parameters
    ----------
    event : Event
        Which.
    first, last : date or None
        Both inside; None where there is no end on that side.
    sign : Sign
        What was seen.
    on : date
        When.
    """

    event: Event
    first: date | None
    last: date | None
    sign: Sign
    on: date


def windows_of(
    planted: date,
    given: Given,
    seen: Sequence[Seen],
    needs: Needs,
    *,
    on: date,
    none_until: date | None = None,
) -> list[Window]:
    """Give all windows, those that hold before others first.

    Parameters
    ----------
    planted : date
        Nothing emerges on the day itself.
    given : Given
        What was given outright.
    seen : sequence of Seen
        In any order.
    needs : Needs
        How counts are read.
    on : date
        The day asked for. What was counted on that day holds to the day; what was counted
        before may be a day off, since a count of some plants is not the field.
    none_until : date or None
        The last day on which finding no flower says that bloom is still to come: who found
        none later missed them, or the field had cut out. None for any day.

    Returns
    -------
    list of Window
        What was given comes before what was seen, flowers before squares and leaves, and
        among these the later day before the earlier.
    """
    sown = Window(Event.EMERGENCE, planted + timedelta(days=1), None, Sign.PLANTED, planted)
    told = [sown, *_given(given)]
    latest = sorted(seen, key=lambda one: one.on, reverse=True)
    for each in latest:
        missed = none_until is not None and each.on > none_until
        told += _flowers(each, needs, missed=missed)
    for each in latest:
        slack = 0 if each.on == on else int(needs.value("count_days"))
        told += _squares(each, needs, slack)
        told += _standing(each, planted)
    return told


def _given(given: Given) -> Iterator[Window]:
    if given.bloom is not None:
        yield Window(Event.FIRST_BLOOM, given.bloom, given.bloom, Sign.FIRST_BLOOM, given.bloom)
    if given.first_square is not None:
        first, last = given.first_square
        yield Window(Event.FIRST_SQUARE, first, last, Sign.FIRST_SQUARE, first)


def _flowers(seen: Seen, needs: Needs, *, missed: bool) -> Iterator[Window]:
    if seen.nawf is not None:
        reached = seen.nawf <= needs.value("cutout_nodes")
        yield _reached(Event.FIRST_BLOOM, Sign.ABOVE_FLOWER, seen.on, reached=True)
        yield _reached(Event.CUTOUT, Sign.ABOVE_FLOWER, seen.on, reached=reached)
    if seen.bloom or (seen.bloom is not None and not missed):
        yield _reached(Event.FIRST_BLOOM, Sign.FLOWERS, seen.on, reached=seen.bloom)


def _squares(seen: Seen, needs: Needs, slack: int) -> Iterator[Window]:
    half = needs.value("half")
    if seen.squaring_branches is not None:
        yield _branches(seen.squaring_branches, seen.on, slack, needs)
    if seen.share is not None:
        reached = seen.share >= half
        yield _half_or_not(seen.on, slack, Sign.PINHEADS, half=reached)


def _standing(seen: Seen, planted: date) -> Iterator[Window]:
    """Say that plants stood: where leaves or nodes were counted, or anything before planting."""
    for count, sign in ((seen.true_leaves, Sign.LEAVES), (seen.nodes, Sign.NODES)):
        # no leaf may be no plant yet
        if count:
            yield _reached(Event.EMERGENCE, sign, seen.on, reached=True)
    if seen.on <= planted:
        counted = ((seen.share, Sign.PINHEADS), (seen.squaring_branches, Sign.BRANCHES))
        for number, sign in counted:
            if number is not None:
                yield _reached(Event.EMERGENCE, sign, seen.on, reached=True)


def _reached(event: Event, sign: Sign, on: date, *, reached: bool) -> Window:
    """Give the days up to one on which an event was reached, or else those after it."""
    if reached:
        return Window(event, None, on, sign, on)
    return Window(event, on + timedelta(days=1), None, sign, on)


def _half_or_not(on: date, slack: int, sign: Sign, *, half: bool) -> Window:
    """Give the days of first square where half of the plants counted had a square, or not."""
    if half:
        return Window(Event.FIRST_SQUARE, None, on + timedelta(days=slack), sign, on)
    return Window(Event.FIRST_SQUARE, on + timedelta(days=1 - slack), None, sign, on)


def _branches(branches: float, on: date, slack: int, needs: Needs) -> Window:
    """Turn a count of squaring branches into the days that first square can have been."""
    if branches < needs.value("half"):
        return _half_or_not(on, slack, Sign.BRANCHES, half=False)
    days, reach = days_for(branches, needs), needs.value("branch_reach")
    reach *= needs.value("branch_days")
    first = on - timedelta(days=math.ceil(days + reach))
    last = on - timedelta(days=max(0, math.floor(days - reach)))
    return Window(Event.FIRST_SQUARE, first, last, Sign.BRANCHES, on)


def days_for(branches: float, needs: Needs) -> float:
    """Give the days since first square that a mean count of squaring branches stands for.

    Parameters
    ----------
    branches : float
        Mean fruiting branches with a square, of a plant. [count]
    needs : Needs
        The days that each takes.

    Returns
    -------
    float
        On the day of first square half of the plants have one branch, so the mean is a
        half; each further branch takes the branch interval. [days]
    """
    return (branches - needs.value("half")) * needs.value("branch_days")


def has_four_leaves(seen: Seen, needs: Needs) -> bool | None:
    """Tell whether plants had the four true leaves at which walks begin.

    Parameters
    ----------
    seen : Seen
        One look.
    needs : Needs
        How many leaves that is.

    Returns
    -------
    bool or None
        None where nothing says so. The first fruiting branch stands above them, so a plant
        with a square has them too.
    """
    if seen.pinhead or seen.squaring_branches or seen.bloom or seen.nawf is not None:
        return True
    leaves = seen.nodes if seen.true_leaves is None else seen.true_leaves
    return None if leaves is None else leaves >= needs.value("four_leaves")


@dataclass(frozen=True, slots=True)
class Kept:
    """Windows that can all be true together, and those that clash with one of them."""

    windows: tuple[Window, ...]
    set_aside: tuple[tuple[Window, Window], ...]
    """Each with the one that it clashes with."""


def kept(windows: Sequence[Window]) -> Kept:
    """Keep each window that can be true beside those kept before it, or set its look aside whole.

    Parameters
    ----------
    windows : sequence of Window
        Those that hold before others first.

    Returns
    -------
    Kept
    """
    half_held: dict[tuple[Sign, date], tuple[Window, Window]] = {}
    while True:
        held: list[Window] = []
        aside = dict(half_held)
        for window in windows:
            look = (window.sign, window.on)
            clash = next((other for other in held if _clash(window, other)), None)
            if look in aside:
                continue
            if clash is None:
                held.append(window)
                continue
            aside[look] = (window, clash)
            if any(same_look(window, other) for other in held):
                # what the rest of this look has ruled out so far is open again
                half_held[look] = aside[look]
                break
        else:
            return Kept(tuple(held), tuple(aside.values()))


def same_look(one: Window, other: Window) -> bool:
    """Tell whether two windows come from one sign on one day, set aside as a whole.

    Parameters
    ----------
    one, other : Window
        Two windows.

    Returns
    -------
    bool
    """
    return (one.sign, one.on) == (other.sign, other.on)


def _clash(one: Window, other: Window) -> bool:
    """Tell whether two windows can't both be true: events keep their order, a day apart."""
    order = list(Event)
    apart = order.index(other.event) - order.index(one.event)
    if apart < 0:
        return _clash(other, one)
    if apart:
        return _ends_too_late(one.first, other.last, apart)
    return _ends_too_late(one.first, other.last, 0) or _ends_too_late(other.first, one.last, 0)


def _ends_too_late(first: date | None, last: date | None, apart: int) -> bool:
    return first is not None and last is not None and first + timedelta(days=apart) > last
