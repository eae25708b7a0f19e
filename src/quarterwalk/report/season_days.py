"""The events of a season as rows: likely day, range, how it is known, the weather alone."""

from __future__ import annotations

from quarterwalk.crop import RANGE, CropClock, DayOdds, Event, bbch, load_needs
from quarterwalk.crop.bbch import COTYLEDONS, EMERGED, FIRST_BUDS, FIRST_FLOWERS
from quarterwalk.crop.clock import without
from quarterwalk.report.season_dates import day_told, days_told
from quarterwalk.report.season_report import SeasonDay
from quarterwalk.report.season_sights import counted_days, first_sight
from quarterwalk.words import noted, phrase

EVENTS = {
    Event.EMERGENCE: noted("emergence"),
    Event.FIRST_SQUARE: noted("first square"),
    Event.FIRST_BLOOM: noted("first bloom"),
    Event.CUTOUT: noted("cutout"),
}
"""What each event is called."""

_CODES = {
    Event.EMERGENCE: EMERGED,
    Event.FIRST_SQUARE: FIRST_BUDS,
    Event.FIRST_BLOOM: FIRST_FLOWERS,
}

# By the weather alone an event is told where either end of its range lies so far off; a day
# is no news (a rule of this project). [days]
_APART = 2


def days_of(clock: CropClock) -> tuple[SeasonDay, ...]:
    """Give the events of a season, the earliest first.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    tuple of SeasonDay
        In the language spoken.
    """
    emergence, *later = (_event(clock, event) for event in Event)
    return (emergence, _four_leaves(clock), *later)


def days_note(clock: CropClock) -> str:
    """Say what the ranges and the codes mean, and which code the field has reached.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    str
        Sentences, in the language spoken.
    """
    told = [phrase("An event falls into its range of days 8 times in 10.")]
    reached = bbch(clock)
    if reached is None:
        told.append(phrase("BBCH is a code of growth stages."))
    else:
        text = phrase(
            "BBCH is a code of growth stages; the field is most likely at {code}.",
            code=_code(reached),
        )
        told.append(text)
    return " ".join(told)


def _four_leaves(clock: CropClock) -> SeasonDay:
    odds = clock.four_leaves
    return SeasonDay(
        event=phrase("four true leaves"),
        likely=_likely(clock, odds),
        span=_span(clock, odds),
        known=phrase("counted back from first square"),
        alone="",
        code=_code(COTYLEDONS + int(load_needs().value("four_leaves"))),
    )


def _event(clock: CropClock, event: Event) -> SeasonDay:
    odds, alone = clock.odds[event], clock.by_weather[event]
    given, differs = _given(clock, event), odds.within(RANGE) != alone.within(RANGE)
    return SeasonDay(
        event=phrase(EVENTS[event]),
        likely=given or _likely(clock, odds),
        span="" if given else _span(clock, odds),
        known=phrase("given") if given else _known(clock, event, differs=differs),
        alone=(_span(clock, alone) or _likely(clock, alone)) if _far(odds, alone) else "",
        code=_code(_CODES[event]) if event in _CODES else "",
    )


def _far(odds: DayOdds, alone: DayOdds) -> bool:
    here, there = odds.within(RANGE), alone.within(RANGE)
    if here is None or there is None:
        return here is not there
    return any(abs((a - b).days) >= _APART for a, b in zip(here, there, strict=True))


def _given(clock: CropClock, event: Event) -> str:
    """Word the days that were given outright; empty where none were."""
    if event is Event.FIRST_SQUARE and clock.given.first_square is not None:
        return days_told(*clock.given.first_square, clock.on)
    bloom = clock.given.bloom or clock.given.bloom_to_come
    if event is Event.FIRST_BLOOM and bloom is not None:
        return day_told(bloom, clock.on)
    return ""


def _known(clock: CropClock, event: Event, *, differs: bool) -> str:
    seen = first_sight(clock, event)
    if seen is not None:
        likely, day = clock.odds[event].likely, day_told(seen, clock.on)
        # a count of some plants may be a day off, so the event may have come the day after
        early = likely is not None and seen < likely
        return phrase("seen about {day}", day=day) if early else phrase("seen by {day}", day=day)
    before = _given_before(clock, event)
    if before:
        return before
    if differs:
        if counted_days(clock):
            return phrase("from weather and sight")
        return phrase("from the weather and what was given")
    return phrase("from the weather") if clock.heat.known else phrase("from other years")


def _given_before(clock: CropClock, event: Event) -> str:
    """Say from which day as given an event is counted.

    Empty where none came before it, or where somebody looked at flowers since.
    """
    looks = [without(each, clock.set_aside) for each in clock.seen]
    if any(each.nawf is not None for each in looks):
        return ""
    events, given = list(Event), clock.given
    place = events.index(event)
    if given.bloom is not None and place > events.index(Event.FIRST_BLOOM):
        return phrase("counted from first bloom as given")
    if any(each.bloom is not None for each in looks):
        return ""
    if given.first_square is not None and place > events.index(Event.FIRST_SQUARE):
        return phrase("counted from first square as given")
    return ""


def _likely(clock: CropClock, odds: DayOdds) -> str:
    if odds.likely is None:
        return phrase("not within this season")
    return day_told(odds.likely, clock.on)


def _span(clock: CropClock, odds: DayOdds) -> str:
    """Word a range of days; empty where it is one day, which is the likely one."""
    span = odds.within(RANGE)
    if span is None:
        # it may as well lie past the season, so the likely day alone would seem sure
        return "" if odds.likely is None else phrase("or later")
    return "" if span[0] == span[1] else days_told(*span, clock.on)


def _code(number: int) -> str:
    """Write a BBCH code, which has two digits."""
    return f"{number:02d}"
