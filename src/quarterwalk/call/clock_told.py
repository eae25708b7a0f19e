"""What a call says of the crop's clock: first square worked out, bloom near, the week to settle."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from quarterwalk.call.figures import capital, chance_words, day_words, listed
from quarterwalk.call.verdict import Reason
from quarterwalk.crop import (
    Event,
    Flowers,
    SetAside,
    Sign,
    Stage,
    StageName,
    WeekOdds,
    WorkedOut,
    load_needs,
)
from quarterwalk.guideline import load_routine
from quarterwalk.units import MILES_PER_KM
from quarterwalk.weather.ahead import RECENT_DAYS
from quarterwalk.words import noted, phrase, phrase_for

# A rule of this project: a week less likely than this is not worth telling. [fraction]
_WORTH_TELLING = 0.05

FAR_KM = 40
"""A station so far off, 25 miles, is no longer taken for the field without a word (a rule of this
project). [km]"""

# Where first square is known to fewer days than this, a count of branches, right within one
# branch of three days, does not narrow it (a rule of this project). [days]
BRANCHES_TELL = 4

# So many looks that are left out are named; of more, their number. [count]
_MOST_NAMED = 2

# Below this a distance is told with a decimal. [miles or km]
_NEAR = 10

_SIGNS = {
    Sign.PLANTED: noted("planting on {day}"),
    Sign.LEAVES: noted("the count of true leaves of {day}"),
    Sign.NODES: noted("the count of nodes of {day}"),
    Sign.PINHEADS: noted("the count of plants with a pinhead square of {day}"),
    Sign.BRANCHES: noted("the count of squaring branches of {day}"),
    Sign.FLOWERS: noted("the look for white flowers of {day}"),
    Sign.ABOVE_FLOWER: noted("the count of nodes above white flower of {day}"),
    Sign.FIRST_SQUARE: noted("first square given as {day}"),
    Sign.FIRST_BLOOM: noted("first bloom given as {day}"),
}

WEEK_CHANCES = "week-chances"
"""Code of the one reason that tells odds; growers and phones are told without."""


def sign_words(sign: Sign, day: str) -> str:
    """Name what somebody saw or gave, by its day.

    Parameters
    ----------
    sign : Sign
        What.
    day : str
        The day in words.

    Returns
    -------
    str
        Such as ``the count of nodes of 12 June``, in the language spoken.
    """
    return phrase(_SIGNS[sign], day=day)


def miles_from_km(km: float) -> float:
    """Turn kilometres into miles.

    Parameters
    ----------
    km : float
        [km]

    Returns
    -------
    float
        [miles]
    """
    return km * MILES_PER_KM


def distance_told(value: float) -> str:
    """Write how far a station is from a field, everywhere alike.

    Parameters
    ----------
    value : float
        [miles or km]

    Returns
    -------
    str
        Short ones with a decimal, such as ``3.5``; else whole.
    """
    return f"{value:.1f}" if round(value, 1) < _NEAR else f"{value:,.0f}"


# By how many days it has besides the first (2 stands for more), and whether anything was seen.
_FIRST_SQUARE = {
    (2, True): noted(
        "First square was not given. By {weather} and what was seen it is most likely {likely},"
        " and very likely between {first} and {last}."
    ),
    (2, False): noted(
        "First square was not given. By {weather} alone it is most likely {likely}, and very"
        " likely between {first} and {last}."
    ),
    (1, True): noted(
        "First square was not given. By {weather} and what was seen it is most likely {likely},"
        " and very likely that day or {other}."
    ),
    (1, False): noted(
        "First square was not given. By {weather} alone it is most likely {likely}, and very"
        " likely that day or {other}."
    ),
    (0, True): noted("First square was not given. By {weather} and what was seen it was {likely}."),
    (0, False): noted("First square was not given. By {weather} alone it was {likely}."),
}
_OTHER_YEARS = noted("Weather is known until {day} only; from there on other years stand in.")
_CARRIED_ON = noted(
    "Weather is known until {day} only; from there on the last {count} days are carried on."
)


def worked_out(stage: Stage) -> Iterator[Reason]:
    """Say what stands for dates that nobody gave: first square, or first bloom alone.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Yields
    ------
    Reason
        Where what was seen and the weather disagree comes second; none where both dates
        were given.
    """
    told = stage.worked_out
    if told is None:
        yield from _by_flowers(stage.flowers)
        return
    yield Reason("first-square-worked-out", " ".join(_worked_out(told)))
    yield from _at_odds(told)
    yield Reason(WEEK_CHANCES, " ".join(_chances(told)))
    if bloom_likely(stage):
        text = phrase(
            "By weather the field likely blooms. Look for white flowers, and note the day."
        )
        yield Reason("bloom-likely", text)
    yield from _not_counted(told.left_out)


def _by_flowers(flowers: Flowers) -> Iterator[Reason]:
    """Say that flowers stand for a first bloom that was not given."""
    if flowers.on is not None:
        text = phrase(
            "White flowers were seen on {day}; the day of first bloom was not given, so that day"
            " stands for it.",
            day=day_words(flowers.on),
        )
        yield Reason("bloom-seen", text)
    yield from _not_counted(flowers.left_out)


def _not_counted(aside: tuple[SetAside, ...]) -> Iterator[Reason]:
    if aside:
        yield Reason("seen-left-out", " ".join(_left_out(aside)))


def _left_out(aside: tuple[SetAside, ...]) -> Iterator[str]:
    """Name the last few of what is left out, and count the others."""
    by_day = sorted(aside, key=lambda each: each.on)
    others = len(by_day) - _MOST_NAMED
    if others > 0:
        yield phrase_for(
            others,
            "{count} earlier look is left out, since it can't be true beside a later one.",
            "{count} earlier looks are left out, since they can't be true beside later ones.",
        )
    for each in by_day[-_MOST_NAMED:]:
        yield phrase(
            "{what} can't be true beside {other}, and is left out.",
            what=capital(sign_words(each.sign, day_words(each.on))),
            other=sign_words(each.by, day_words(each.by_on)),
        )


def bloom_likely(stage: Stage) -> bool:
    """Tell whether by weather a field likelier blooms than not, and nobody knows.

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Returns
    -------
    bool
    """
    worked = stage.worked_out
    return worked is not None and worked.weeks.blooming > 1 / 2 and not stage.bloom_known


def in_doubt(stage: Stage | None) -> bool:
    """Tell whether what was seen lies so far from the weather that something is wrong.

    Parameters
    ----------
    stage : Stage or None
        Where the crop stands; None where nobody knows, and then nothing is in doubt.

    Returns
    -------
    bool
    """
    worked = None if stage is None else stage.worked_out
    return worked is not None and worked.at_odds is not None and worked.at_odds.hardly


def at_border(worked: WorkedOut | None) -> bool:
    """Tell whether nothing more can be found out today of the week that decides.

    Parameters
    ----------
    worked : WorkedOut or None
        First square as the crop's clock has it; None where it was given.

    Returns
    -------
    bool
        First square is known to a few days, or branches were counted today.
    """
    if worked is None:
        return False
    return worked.branches_counted or _few_days(worked)


def _few_days(worked: WorkedOut) -> bool:
    """Tell whether first square is known to fewer days than branches can tell."""
    return (worked.last - worked.first).days + 1 < BRANCHES_TELL


def _chances(told: WorkedOut) -> Iterator[str]:
    """Tell the odds of the range and of each week."""
    if told.first != told.last:
        yield phrase("That range of days holds first square 9 times in 10.")
    yield phrase("Where the field stands: {each}.", each="; ".join(_odds(told.weeks)))


def _worked_out(told: WorkedOut) -> Iterator[str]:
    text = _FIRST_SQUARE[min((told.last - told.first).days, 2), told.looked]
    other = told.last if told.likely == told.first else told.first
    yield phrase(
        text,
        weather=_weather(told),
        likely=day_words(told.likely),
        other=day_words(other),
        first=day_words(told.first),
        last=day_words(told.last),
    )
    yield from far_station(told.distance_km)
    if told.nothing_known:
        yield phrase("No day since planting is known; other years stand in for all of them.")
    elif told.known_until is not None:
        text = _OTHER_YEARS if told.years else _CARRIED_ON
        yield phrase(text, day=day_words(told.known_until), count=RECENT_DAYS)
    if told.bloom is not None and told.bloom[0] == told.bloom[1]:
        yield phrase(
            "By the white flowers that were seen first bloom was {day}.",
            day=day_words(told.bloom[0]),
        )
    elif told.bloom is not None:
        yield phrase(
            "By the white flowers that were seen first bloom was very likely between {first} and"
            " {last}.",
            first=day_words(told.bloom[0]),
            last=day_words(told.bloom[1]),
        )


def far_station(distance_km: float | None) -> Iterator[str]:
    """Say that a station lies too far off to be taken for the field.

    Parameters
    ----------
    distance_km : float or None
        From the field to the station; None where either place is not known. [km]

    Yields
    ------
    str
        One sentence, in the language spoken; none where the station is near.
    """
    if distance_km is not None and distance_km >= FAR_KM:
        yield phrase(
            "The station is {miles} miles off, so days may lie further off than is said here;"
            " what is seen in the field tells more.",
            miles=distance_told(miles_from_km(distance_km)),
        )


def _weather(told: WorkedOut) -> str:
    if not told.station:
        return phrase("the weather")
    if told.distance_km is None:
        return phrase("the weather of {station}", station=told.station)
    return phrase(
        "the weather of {station}, {miles} miles away,",
        station=told.station,
        miles=distance_told(miles_from_km(told.distance_km)),
    )


_DISAGREES = {
    Event.FIRST_SQUARE: noted(
        "{what} does not fit the weather, which alone puts first square between {first} and"
        " {last}. What was seen holds."
    ),
    Event.FIRST_BLOOM: noted(
        "{what} does not fit the weather, which alone puts first bloom between {first} and"
        " {last}. What was seen holds."
    ),
}
_DISAGREES_PAST = {
    Event.FIRST_SQUARE: noted(
        "{what} does not fit the weather, by which alone first square lies past this season. What"
        " was seen holds."
    ),
    Event.FIRST_BLOOM: noted(
        "{what} does not fit the weather, by which alone first bloom lies past this season. What"
        " was seen holds."
    ),
}


def _at_odds(worked: WorkedOut) -> Iterator[Reason]:
    """Say what was seen against the weather."""
    told = worked.at_odds
    if told is None:
        return
    day = phrase("the same day") if told.on == worked.likely else day_words(told.on)
    what = capital(sign_words(told.sign, day))
    if told.expected is None:
        text = phrase(_DISAGREES_PAST[told.event], what=what)
    else:
        first, last = map(day_words, told.expected)
        text = phrase(_DISAGREES[told.event], what=what, first=first, last=last)
    if told.hardly:
        doubt = phrase(
            "They lie so far apart that the day of planting, the station or the count is in doubt:"
            " the call stays provisional."
        )
        text = f"{text} {doubt}"
    yield Reason("weather-disagrees", text)


def _odds(odds: WeekOdds) -> Iterator[str]:
    if odds.before >= _WORTH_TELLING:
        yield phrase("not squaring yet, {odds}", odds=chance_words(odds.before))
    for week, chance in enumerate(odds.weeks, start=1):
        if chance >= _WORTH_TELLING:
            yield phrase("week {week}, {odds}", week=week, odds=chance_words(chance))
    if odds.blooming >= _WORTH_TELLING:
        yield phrase("blooming, {odds}", odds=chance_words(odds.blooming))


_BLOOM_NEAR = noted(
    "First square was {days} days ago or more, so first bloom is near."
    " Look for the first white flower, and note the day."
)
_BLOOM_MAY_BE_NEAR = noted(
    "First square may have been {days} days ago or more, and then first bloom is near."
    " Look for the first white flower, and note the day."
)


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
        text = _BLOOM_NEAR if stage.days[0] >= after else _BLOOM_MAY_BE_NEAR
        yield Reason("look-for-bloom", phrase(text, days=after))


def settle_week(weeks: tuple[int, ...], worked: WorkedOut | None) -> Reason:
    """Say what to look at where the squaring week decides.

    Parameters
    ----------
    weeks : tuple of int
        Those that it may be. [from 1]
    worked : WorkedOut or None
        First square as the crop's clock has it; None where it was given.

    Returns
    -------
    Reason
    """
    named = listed([str(week) for week in weeks], "or")
    if worked is not None and _few_days(worked):
        sure = worked.last + timedelta(days=(weeks[-1] - 1) * load_routine().week_days)
        text = phrase(
            "First square is known to within {count} days, and counting today won't tell week"
            " {weeks} apart. From {day} on it is week {week}.",
            count=(worked.last - worked.first).days + 1,
            weeks=named,
            day=day_words(sure),
            week=weeks[-1],
        )
        return Reason("settle-week", text)
    if worked is not None and worked.branches_counted:
        text = phrase(
            "Branches were counted on this walk's day and leave week {weeks} open. Count them again"
            " on the next look.",
            weeks=named,
        )
        return Reason("settle-week", text)
    text = phrase(
        "To tell week {weeks}: count the fruiting branches with a square on five plants in"
        " each quarter. On average 1 or 2 is about week 1, 3 or 4 week 2, 5 or more week 3.",
        weeks=named,
    )
    return Reason("settle-week", text)
