"""Where what was seen and the weather disagree, what was set aside, and what would settle it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from quarterwalk.call.figures import capital
from quarterwalk.crop import (
    SEASON_DAYS,
    CropClock,
    Disagreement,
    Event,
    Seen,
    SetAside,
    Sign,
)
from quarterwalk.picture.season_words import date_word, dates_long
from quarterwalk.words import noted, phrase, phrase_for

# Of each list so many are told one by one, so that a season stays on its sheet. [count]
_MOST_TOLD = 3

_ASIDE = {
    Sign.PLANTED: noted("the day of planting, {day}"),
    Sign.LEAVES: noted("the count of true leaves of {day}"),
    Sign.NODES: noted("the count of nodes of {day}"),
    Sign.PINHEADS: noted("the count of plants with a pinhead square of {day}"),
    Sign.BRANCHES: noted("the count of squaring branches of {day}"),
    Sign.FLOWERS: noted("the look for white flowers of {day}"),
    Sign.ABOVE_FLOWER: noted("the count of nodes above white flower of {day}"),
    Sign.FIRST_SQUARE: noted("first square as it was given, {day}"),
    Sign.FIRST_BLOOM: noted("first bloom as it was given, {day}"),
}

_UP = noted(
    "On {day} plants with leaves stood in the field; by the weather alone it comes up {days}."
)
_NODES = noted(
    "On {day} plants had {count} nodes, which puts first square at {window};"
    " by the weather alone it comes {days}."
)
_LEAVES = noted(
    "On {day} plants had {count} true leaves, which puts first square at {window};"
    " by the weather alone it comes {days}."
)
_BRANCHES = noted(
    "On {day} plants had {count} squaring branches, which puts first square at {window};"
    " by the weather alone it comes {days}."
)
_NO_BRANCH = noted(
    "On {day} plants had {count} squaring branches, too few for first square to have come;"
    " by the weather alone it comes {days}."
)
_FLOWERS = noted(
    "On {day} white flowers stood in the field; by the weather alone first bloom comes {days}."
)
_NO_FLOWER = noted(
    "On {day} no white flower stood in the field; by the weather alone first bloom comes {days}."
)
_ABOVE = noted(
    "On {day} there were {count} nodes above white flower, so the field bloomed;"
    " by the weather alone first bloom comes {days}."
)
_CUTOUT = noted(
    "On {day} there were {count} nodes above white flower;"
    " by the weather alone cutout comes {days}."
)
_SQUARE_GIVEN = noted("First square is given as {window}; by the weather alone it comes {days}.")
_BLOOM_GIVEN = noted("First bloom is given as {window}; by the weather alone it comes {days}.")


def doubts(clock: CropClock) -> tuple[str, ...]:
    """Say where what was seen and the weather disagree, and what was set aside.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    tuple of str
        A sentence each, in the language spoken; none where all agree.
    """
    return tuple(_doubts(clock))


def _doubts(clock: CropClock) -> Iterator[str]:
    told = _latest(clock.disagreements)
    for each in told:
        yield _disagreeing(clock, each)
    others = {each.on for each in clock.disagreements} - {each.on for each in told}
    if others:
        yield phrase_for(
            len(others),
            "What was seen on {count} other day disagrees with the weather too.",
            "What was seen on {count} other days disagrees with the weather too.",
        )
    if told:
        yield phrase("What was seen or given holds; the days here go by it.")
    yield from _all_set_aside(clock.set_aside)


def _latest(disagreements: Sequence[Disagreement]) -> list[Disagreement]:
    """Give the last disagreement of each kind, the last few of them by day."""
    kinds = {(each.sign, each.event): each for each in disagreements}
    return sorted(kinds.values(), key=lambda each: each.on)[-_MOST_TOLD:]


def _all_set_aside(aside: Sequence[SetAside]) -> Iterator[str]:
    by_day = sorted(aside, key=lambda each: each.on)
    told = list(dict.fromkeys(_set_aside(each) for each in by_day))
    if len(told) > _MOST_TOLD:
        yield phrase_for(
            len(told) - _MOST_TOLD,
            "{count} earlier look is set aside, since it can't be true beside a later one.",
            "{count} earlier looks are set aside, since they can't be true beside later ones.",
        )
    yield from told[-_MOST_TOLD:]


def _set_aside(aside: SetAside) -> str:
    return phrase(
        "{what} is set aside: it can't be true beside {other}.",
        what=capital(_named(aside.sign, aside.on)),
        other=_named(aside.by, aside.by_on),
    )


def _named(sign: Sign, on: date) -> str:
    return phrase(_ASIDE[sign], day=date_word(on))


def _disagreeing(clock: CropClock, told: Disagreement) -> str:
    half = clock.needs.value("half")
    seen = next((each for each in clock.seen if _is_of(each, told, half)), None)
    days = _expected(clock, told)
    if told.sign is Sign.PINHEADS and seen is not None:
        return _pinheads(seen, days)
    text = _text(told)
    return phrase(
        text,
        day=date_word(told.on),
        count=_count(seen, told.sign),
        window=_window(told),
        days=days,
    )


def _pinheads(seen: Seen, days: str) -> str:
    """Tell the plants with a pinhead square against the weather."""
    return phrase_for(
        seen.pinhead or 0,
        "On {day} {count} plant of {plants} had a pinhead square;"
        " by the weather alone first square comes {days}.",
        "On {day} {count} plants of {plants} had a pinhead square;"
        " by the weather alone first square comes {days}.",
        day=date_word(seen.on),
        plants=seen.plants,
        days=days,
    )


def _text(told: Disagreement) -> str:
    still_to_come = told.window[1] is None
    if told.sign in (Sign.LEAVES, Sign.NODES):
        squares = _NODES if told.sign is Sign.NODES else _LEAVES
        return _UP if told.event is Event.EMERGENCE else squares
    if told.sign is Sign.BRANCHES:
        return _NO_BRANCH if still_to_come else _BRANCHES
    if told.sign is Sign.FLOWERS:
        return _NO_FLOWER if still_to_come else _FLOWERS
    if told.sign is Sign.ABOVE_FLOWER:
        return _CUTOUT if told.event is Event.CUTOUT else _ABOVE
    return _SQUARE_GIVEN if told.sign is Sign.FIRST_SQUARE else _BLOOM_GIVEN


def _counted(seen: Seen, sign: Sign) -> float | None:
    """Give the count behind a sign; None where it was not looked for."""
    return {
        Sign.LEAVES: seen.true_leaves,
        Sign.NODES: seen.nodes,
        Sign.PINHEADS: seen.share,
        Sign.BRANCHES: seen.squaring_branches,
        Sign.FLOWERS: None if seen.bloom is None else float(seen.bloom),
        Sign.ABOVE_FLOWER: seen.nawf,
    }.get(sign)


def _is_of(seen: Seen, told: Disagreement, half: float) -> bool:
    """Tell whether a disagreement speaks of this look: two may share a day."""
    count = _counted(seen, told.sign)
    if seen.on != told.on or count is None:
        return False
    if told.sign is Sign.PINHEADS:
        return (count >= half) == (told.window[1] is not None)
    return True


def _count(seen: Seen | None, sign: Sign) -> str:
    count = None if seen is None else _counted(seen, sign)
    return "" if count is None else f"{count:.1f}".removesuffix(".0")


def _window(told: Disagreement) -> str:
    first, last = told.window
    return dates_long(first, last) if first is not None and last is not None else ""


def _expected(clock: CropClock, told: Disagreement) -> str:
    if told.expected is None:
        last = clock.planted + timedelta(days=SEASON_DAYS - 1)
        return phrase("after {day}", day=date_word(last))
    return dates_long(*told.expected)
