"""Where what was seen and the weather disagree, and what was set aside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quarterwalk.call.clock_told import sign_words
from quarterwalk.call.figures import capital
from quarterwalk.crop import CropClock, Disagreement, Event, Seen, SetAside, Sign
from quarterwalk.report.season_dates import day_told, days_told
from quarterwalk.words import noted, phrase, phrase_for

# So many disagreements, and looks that are set aside, are told one by one, so that a season
# stays on its sheet. [count]
_MOST_TOLD, _MOST_ASIDE = 3, 2

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


def disagreement_told(clock: CropClock, told: Disagreement) -> str:
    """Say in a sentence what was seen, and what the weather alone makes of it.

    Parameters
    ----------
    clock : CropClock
        The season.
    told : Disagreement
        One of its disagreements.

    Returns
    -------
    str
        In the language spoken.
    """
    half = clock.needs.value("half")
    seen = next((each for each in clock.seen if _is_of(each, told, half)), None)
    days = _expected(clock, told)
    if told.sign is Sign.PINHEADS and seen is not None:
        return _pinheads(seen, day_told(seen.on, clock.on), days)
    text = _text(told)
    return phrase(
        text,
        day=day_told(told.on, clock.on),
        count=_count(seen, told.sign),
        window=_window(clock, told),
        days=days,
    )


def set_aside_told(clock: CropClock, aside: SetAside) -> str:
    """Say in a sentence what is set aside, and what it can't be true beside.

    Parameters
    ----------
    clock : CropClock
        The season.
    aside : SetAside
        One of those that it set aside.

    Returns
    -------
    str
        In the language spoken.
    """
    return phrase(
        "{what} is set aside: it can't be true beside {other}.",
        what=capital(sign_words(aside.sign, day_told(aside.on, clock.on))),
        other=sign_words(aside.by, day_told(aside.by_on, clock.on)),
    )


def _doubts(clock: CropClock) -> Iterator[str]:
    told = _latest(clock.disagreements)
    for each in told:
        yield disagreement_told(clock, each)
    others = {each.on for each in clock.disagreements} - {each.on for each in told}
    if others:
        yield phrase_for(
            len(others),
            "What was seen on {count} other day disagrees with the weather too.",
            "What was seen on {count} other days disagrees with the weather too.",
        )
    if told:
        yield phrase("What was seen or given holds; the days here go by it.")
    yield from _all_set_aside(clock)


def _latest(disagreements: Sequence[Disagreement]) -> list[Disagreement]:
    """Give the last disagreement of each kind, the last few of them by day."""
    kinds = {(each.sign, each.event): each for each in disagreements}
    return sorted(kinds.values(), key=lambda each: each.on)[-_MOST_TOLD:]


def _all_set_aside(clock: CropClock) -> Iterator[str]:
    by_day = sorted(clock.set_aside, key=lambda each: each.on)
    told = list(dict.fromkeys(set_aside_told(clock, each) for each in by_day))
    if len(told) > _MOST_ASIDE:
        yield phrase_for(
            len(told) - _MOST_ASIDE,
            "{count} earlier look is set aside, since it can't be true beside a later one.",
            "{count} earlier looks are set aside, since they can't be true beside later ones.",
        )
    yield from told[-_MOST_ASIDE:]


def _pinheads(seen: Seen, day: str, days: str) -> str:
    """Tell the plants with a pinhead square against the weather."""
    return phrase_for(
        seen.pinhead or 0,
        "On {day} {count} plant of {plants} had a pinhead square;"
        " by the weather alone first square comes {days}.",
        "On {day} {count} plants of {plants} had a pinhead square;"
        " by the weather alone first square comes {days}.",
        day=day,
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


def _window(clock: CropClock, told: Disagreement) -> str:
    first, last = told.window
    return "" if first is None or last is None else days_told(first, last, clock.on)


def _expected(clock: CropClock, told: Disagreement) -> str:
    if told.expected is None:
        return phrase("after this season")
    return days_told(*told.expected, clock.on)
