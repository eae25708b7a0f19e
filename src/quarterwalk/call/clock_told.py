"""What a call says of the crop's clock: first square worked out, bloom near, the week to settle."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call.figures import day_words, listed, odds_words
from quarterwalk.call.verdict import Reason
from quarterwalk.crop import Stage, StageName, WeekOdds, WorkedOut, load_needs
from quarterwalk.units import FOOT_M, MILE_FEET
from quarterwalk.words import phrase, phrase_for

# A rule of this project: a week less likely than this is not worth telling. [fraction]
_WORTH_TELLING = 0.05


WEEK_CHANCES = "week-chances"
"""Code of the one reason that tells odds; growers and phones are told without."""


def worked_out(stage: Stage) -> Iterator[Reason]:
    """Say that first square was worked out, and which week it makes of the day.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Yields
    ------
    Reason
        None where first square was given.
    """
    told = stage.worked_out
    if told is None:
        return
    yield Reason("first-square-worked-out", " ".join(_worked_out(told)))
    weeks = phrase("Where the field stands: {each}.", each="; ".join(_odds(told.weeks)))
    yield Reason(WEEK_CHANCES, weeks)
    if told.weeks.blooming > 1 / 2 and not stage.bloom_known:
        text = phrase(
            "By weather the field likely blooms. Look for white flowers, and note the day."
        )
        yield Reason("bloom-likely", text)
    if told.left_out:
        text = phrase(
            "What was seen on {days} can't be true beside the rest, and is left out.",
            days=listed([day_words(day) for day in told.left_out]),
        )
        yield Reason("seen-left-out", text)


def _worked_out(told: WorkedOut) -> Iterator[str]:
    if told.first == told.last:
        yield phrase(
            "First square was not given. By {weather} and what was seen it was {likely}.",
            weather=_weather(told),
            likely=day_words(told.likely),
        )
    else:
        yield _between(told)
    if told.known_until is not None:
        yield phrase(
            "Weather is known until {day} only; from there on other years stand in.",
            day=day_words(told.known_until),
        )


def _between(told: WorkedOut) -> str:
    return phrase(
        "First square was not given. By {weather} and what was seen it is most likely {likely},"
        " between {first} and {last}.",
        weather=_weather(told),
        likely=day_words(told.likely),
        first=day_words(told.first),
        last=day_words(told.last),
    )


def _weather(told: WorkedOut) -> str:
    if not told.station:
        return phrase("the weather")
    if told.distance_km is None:
        return phrase("the weather of {station}", station=told.station)
    miles = round(told.distance_km * 1000 / float(MILE_FEET * FOOT_M))
    return phrase_for(
        miles,
        "the weather of {station}, {count} mile away,",
        "the weather of {station}, {count} miles away,",
        station=told.station,
    )


def at_odds(stage: Stage) -> Iterator[Reason]:
    """Say that what was seen and the weather disagree about first square.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Yields
    ------
    Reason
        None where they agree, or first square was given.
    """
    told = None if stage.worked_out is None else stage.worked_out.at_odds
    if told is None:
        return
    text = phrase(
        "What was seen on {day} disagrees with the weather, which puts first square between"
        " {first} and {last}. What was seen holds.",
        day=day_words(told.on),
        first=day_words(told.expected[0]),
        last=day_words(told.expected[1]),
    )
    if told.hardly:
        doubt = phrase(
            "They lie so far apart that the day of planting, the station or the count is in doubt:"
            " the call stays provisional."
        )
        text = f"{text} {doubt}"
    yield Reason("weather-disagrees", text)


def _odds(odds: WeekOdds) -> Iterator[str]:
    if odds.before >= _WORTH_TELLING:
        yield phrase("not squaring yet, {odds}", odds=odds_words(odds.before))
    for week, chance in enumerate(odds.weeks, start=1):
        if chance >= _WORTH_TELLING:
            yield phrase("week {week}, {odds}", week=week, odds=odds_words(chance))
    if odds.blooming >= _WORTH_TELLING:
        yield phrase("blooming, {odds}", odds=odds_words(odds.blooming))


def look_for_bloom(stage: Stage, *, asked: bool) -> Iterator[Reason]:
    """Ask for first bloom while it may come any day.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.
    asked : bool
        Whether the call already lacks the date.

    Yields
    ------
    Reason
        None where bloom is known, or is not to be expected yet.
    """
    after = int(load_needs().value("look_for_bloom_after"))
    near = stage.name is StageName.SQUARING and stage.days[1] >= after
    if near and not stage.bloom_known and not asked:
        text = phrase(
            "First square was {days} days ago or more, so first bloom is near."
            " Look for the first white flower, and note the day.",
            days=after,
        )
        yield Reason("look-for-bloom", text)


def settle_week(weeks: tuple[int, ...]) -> Reason:
    """Say what to look at where the squaring week decides.

    Parameters
    ----------
    weeks : tuple of int
        Those that it may be. [from 1]

    Returns
    -------
    Reason
    """
    text = phrase(
        "To tell week {weeks}: count the fruiting branches with a square on five plants in"
        " each quarter. On average 1 or 2 is about week 1, 3 or 4 week 2, 5 or more week 3.",
        weeks=listed([str(week) for week in weeks], "or"),
    )
    return Reason("settle-week", text)
