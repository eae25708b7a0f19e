"""Where one field's season stands, in a sentence with its odds, and how that is known."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from quarterwalk.call.figures import listed, odds_words
from quarterwalk.crop import RANGE, CropClock, DayOdds, Event, Seen
from quarterwalk.crop.clock import without
from quarterwalk.picture.season_words import date_word, dates_long
from quarterwalk.words import noted, phrase, phrase_for

# What stands beside the likeliest is told from here on: about 1 in 10. [fraction]
_WORTH_TELLING = 0.1

# Past this a doubt is too small to be told in words. [fraction]
_CERTAIN = 0.995

# So many days on which something was seen are named; of more, their number. [days]
_NAMED = 3

_BEFORE, _BLOOMING = 0, -1

_LEADS = {
    _BEFORE: (
        noted("Not squaring yet."),
        noted("Not squaring yet: {odds}."),
        noted("Not squaring yet, most likely: {odds}; {others}."),
    ),
    _BLOOMING: (
        noted("The field blooms."),
        noted("Blooming: {odds}."),
        noted("Blooming, most likely: {odds}; {others}."),
    ),
}
_WEEK_LEADS = (
    noted("Week {week} of squaring."),
    noted("Week {week} of squaring: {odds}."),
    noted("Week {week} of squaring, most likely: {odds}; {others}."),
)

_SQUARE = (
    noted("First square was {days}, most likely {likely}."),
    noted("First square is between {first} and {last}, most likely {likely}."),
    noted("First square will be {days}, most likely {likely}."),
    noted("First square, most likely: {likely}."),
)
_BLOOM = (
    noted("First bloom was {days}, most likely {likely}."),
    noted("First bloom is between {first} and {last}, most likely {likely}."),
    noted("First bloom will be {days}, most likely {likely}."),
    noted("First bloom, most likely: {likely}."),
)

_NOTHING_SEEN = noted(
    "That is worked out from the heat since planting on {planted};"
    " nothing was seen in the field yet."
)
_ALL_ASIDE = noted(
    "That is worked out from the heat since planting on {planted};"
    " what was seen in the field is set aside."
)


def headline(clock: CropClock) -> str:
    """Say where a season stands, with what it may also be.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    str
        One sentence, in the language spoken.
    """
    (lead, chance), *others = _chances(clock)
    sure, alone, beside = _LEADS.get(lead, _WEEK_LEADS)
    if chance >= _CERTAIN:
        return phrase(sure, week=lead)
    told = "; ".join(_other(each, odds) for each, odds in others if odds >= _WORTH_TELLING)
    text = beside if told else alone
    return phrase(text, week=lead, odds=odds_words(chance), others=told)


def likeliest(clock: CropClock) -> float:
    """Give the chance of where the season most likely stands. [fraction]"""
    return _chances(clock)[0][1]


def _chances(clock: CropClock) -> list[tuple[int, float]]:
    """Give 0 for before squaring, -1 for blooming or the week, the likeliest first."""
    weeks = clock.weeks
    told = [(_BEFORE, weeks.before), *enumerate(weeks.weeks, start=1), (_BLOOMING, weeks.blooming)]
    return sorted(told, key=lambda pair: -pair[1])


def _other(which: int, chance: float) -> str:
    odds = odds_words(chance)
    if which == _BEFORE:
        return phrase("not squaring yet: {odds}", odds=odds)
    if which == _BLOOMING:
        return phrase("blooming: {odds}", odds=odds)
    return phrase("week {week}: {odds}", week=which, odds=odds)


def stands(clock: CropClock) -> tuple[str, ...]:
    """Say when first square and bloom were or will be, and how that is known.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    tuple of str
        Sentences, in the language spoken.
    """
    return tuple(_stands(clock))


def _stands(clock: CropClock) -> Iterator[str]:
    if clock.odds[Event.EMERGENCE].by(clock.on) < 1 / 2:
        yield _not_up(clock)
    yield _first_square(clock)
    if clock.bloom is not None or clock.weeks.blooming >= 1 / 2:
        yield _first_bloom(clock)
    yield from _known_from(clock)


def _not_up(clock: CropClock) -> str:
    span = clock.odds[Event.EMERGENCE].within(RANGE)
    if span is None:
        return phrase("The stand is most likely not up yet.")
    return phrase(
        "The stand is most likely not up yet; it comes up {days}.", days=dates_long(*span)
    )


def _first_square(clock: CropClock) -> str:
    if clock.given.first_square is not None:
        days = dates_long(*clock.given.first_square)
        return phrase("First square is given as {days}.", days=days)
    told = _when(clock.odds[Event.FIRST_SQUARE], clock.on, _SQUARE)
    return told or phrase("First square lies past the days that can be worked out.")


def _first_bloom(clock: CropClock) -> str:
    if clock.given.bloom is not None:
        return phrase("First bloom is given as {day}.", day=date_word(clock.given.bloom))
    told = _when(clock.odds[Event.FIRST_BLOOM], clock.on, _BLOOM)
    return told or phrase("First bloom lies past the days that can be worked out.")


def _when(odds: DayOdds, on: date, texts: tuple[str, ...]) -> str:
    span, likely = odds.within(RANGE), odds.likely
    if span is None or likely is None:
        return ""
    first, last = span
    past, across, ahead, one = texts
    text = one if first == last else past if last <= on else ahead if first > on else across
    return phrase(
        text,
        days=dates_long(first, last),
        first=date_word(first),
        last=date_word(last),
        likely=date_word(likely),
    )


def _known_from(clock: CropClock) -> Iterator[str]:
    """Say what the days were worked out from, where not all of them were given."""
    if clock.given.first_square is not None:
        return
    planted = date_word(clock.planted)
    days = sorted({each.on for each in clock.seen if _tells(without(each, clock.set_aside))})
    if not days:
        text = _ALL_ASIDE if any(map(_tells, clock.seen)) else _NOTHING_SEEN
        yield phrase(text, planted=planted)
    elif len(days) <= _NAMED:
        yield phrase(
            "That is worked out from the heat since planting on {planted}"
            " and from what was seen on {days}.",
            planted=planted,
            days=listed([date_word(day) for day in days]),
        )
    else:
        yield phrase_for(
            len(days),
            "That is worked out from the heat since planting on {planted}"
            " and from what was seen on {count} day, on {last}.",
            "That is worked out from the heat since planting on {planted}"
            " and from what was seen on {count} days, the last on {last}.",
            planted=planted,
            last=date_word(days[-1]),
        )


def _tells(seen: Seen) -> bool:
    """Tell whether anything was looked for on a day."""
    counts = (seen.true_leaves, seen.nodes, seen.share, seen.squaring_branches, seen.nawf)
    return seen.bloom is not None or any(count is not None for count in counts)
