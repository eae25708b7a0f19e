"""The events of a season as rows: likely day, range, how it is known, the weather alone."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from quarterwalk.crop import RANGE, SEASON_DAYS, CropClock, DayOdds, Event, Given, bbch, load_needs
from quarterwalk.crop.bbch import COTYLEDONS, EMERGED, FIRST_BUDS, FIRST_FLOWERS
from quarterwalk.crop.window import windows_of
from quarterwalk.picture.season_words import date_word, dates_long
from quarterwalk.report.season_report import SeasonDay
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
    """Say what the ranges mean, and which code the field has reached.

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
    if reached is not None:
        code = _code(reached)
        told.append(phrase("On the BBCH scale the field is most likely at {code}.", code=code))
    return " ".join(told)


def _four_leaves(clock: CropClock) -> SeasonDay:
    odds = clock.four_leaves
    return SeasonDay(
        event=phrase("four true leaves"),
        likely=_likely(clock, odds),
        span=_span(odds),
        known=phrase("counted back"),
        alone="",
        code=_code(COTYLEDONS + int(load_needs().value("four_leaves"))),
    )


def _event(clock: CropClock, event: Event) -> SeasonDay:
    odds, alone = clock.odds[event], clock.by_weather[event]
    given, differs = _given(clock, event), odds.within(RANGE) != alone.within(RANGE)
    return SeasonDay(
        event=phrase(EVENTS[event]),
        likely=given or _likely(clock, odds),
        span="" if given else _span(odds),
        known=phrase("given") if given else _known(clock, event, differs=differs),
        alone=(_span(alone) or _likely(clock, alone)) if _far(odds, alone) else "",
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
        return dates_long(*clock.given.first_square)
    if event is Event.FIRST_BLOOM and clock.given.bloom is not None:
        return date_word(clock.given.bloom)
    return ""


def _known(clock: CropClock, event: Event, *, differs: bool) -> str:
    seen = min(_seen(clock, event), default=None)
    if seen is not None:
        return phrase("seen by {day}", day=date_word(seen))
    if differs:
        return phrase("from weather and sight")
    return phrase("from the weather")


def _seen(clock: CropClock, event: Event) -> Iterator[date]:
    """Give the days on which it was seen that an event had come."""
    aside = {(each.sign, each.on) for each in clock.set_aside}
    windows = windows_of(clock.planted, Given(), clock.seen, clock.needs, on=clock.on)
    for window in windows:
        told = window.event is event and window.last is not None
        if told and (window.sign, window.on) not in aside:
            yield window.on


def _likely(clock: CropClock, odds: DayOdds) -> str:
    if odds.likely is not None:
        return date_word(odds.likely)
    return phrase("after {day}", day=date_word(clock.planted + timedelta(days=SEASON_DAYS - 1)))


def _span(odds: DayOdds) -> str:
    """Word a range of days; empty where it is one day, which is the likely one."""
    span = odds.within(RANGE)
    return "" if span is None or span[0] == span[1] else dates_long(*span)


def _code(number: int) -> str:
    """Write a BBCH code, which has two digits."""
    return f"{number:02d}"
