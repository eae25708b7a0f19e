"""Where one field's season stands, in a sentence with its odds, and how that is known."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call.figures import chance_words, listed
from quarterwalk.crop import RANGE, CropClock, Event, WeekOdds
from quarterwalk.report.season_dates import day_told, days_told
from quarterwalk.report.season_sights import counted_days, cut_out, first_sight, looked
from quarterwalk.words import noted, phrase, phrase_as, phrase_for

# What stands beside the likeliest is told from here on: about 1 in 10. [fraction]
_WORTH_TELLING = 0.1

# Past this a doubt is too small to be told in words. [fraction]
_CERTAIN = 0.995

# So many days on which something was seen are named; of more, their number. [days]
_NAMED = 3

_BEFORE = (
    noted("Not squaring yet."),
    noted("Not squaring yet: {odds}."),
    noted("Not squaring yet, most likely: {odds}; {others}."),
)
_BLOOMING = (
    noted("The field blooms."),
    noted("Blooming: {odds}."),
    noted("Blooming, most likely: {odds}; {others}."),
)
_WEEK = (
    noted("Week {week} of squaring."),
    noted("Week {week} of squaring: {odds}."),
    noted("Week {week} of squaring, most likely: {odds}; {others}."),
)
_OTHERS = {
    "before": noted("not squaring yet: {odds}"),
    "squaring": noted("squaring: {odds}"),
    "blooming": noted("blooming: {odds}"),
}

# Of each event: known and past; worked out and past; today among its days; ahead; one day.
_SQUARE = (
    noted("First square was {days}, most likely {likely}."),
    noted("First square most likely came about {likely} ({days})."),
    noted("First square is between {first} and {last}, most likely {likely}."),
    noted("First square will be {days}, most likely {likely}."),
    noted("First square, most likely: {likely}."),
)
_BLOOM = (
    noted("First bloom was {days}, most likely {likely}."),
    noted("First bloom most likely came about {likely} ({days}), but nobody saw it."),
    noted("First bloom is between {first} and {last}, most likely {likely}."),
    noted("First bloom will be {days}, most likely {likely}."),
    noted("First bloom, most likely: {likely}."),
)

_NO_HEAT = noted(
    "No weather is known since {planting}, so that is worked out from other years' weather."
)
_NO_HEAT_SEEN = noted(
    "No weather is known since {planting}, so that is worked out from other years' weather and from"
    " what was seen."
)
_NOTHING_SEEN = noted(
    "That is worked out from the heat since {planting}; nothing was seen in the field yet."
)
_ALL_ASIDE = noted(
    "That is worked out from the heat since {planting}; what was seen in the field is set aside."
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
    cut = cut_out(clock)
    if cut is not None:
        return phrase(
            "The field has cut out: {count} nodes above white flower on {day}.",
            count=f"{cut.nawf:.1f}".removesuffix(".0"),
            day=day_told(cut.on, clock.on),
        )
    weeks = clock.weeks
    week, (stretch, chance) = weeks.likely_week, weeks.stretches[0]
    others = _other_stretches(weeks)
    if week is None and stretch == "blooming" and clock.bloom is None:
        # nobody saw it, so it is never told as a fact
        return _led((_BLOOMING[1], *_BLOOMING[1:]), chance, others)
    if week is None:
        return _led(_BEFORE if stretch == "before" else _BLOOMING, chance, others)
    best = weeks.weeks[week - 1]
    if best >= 1 / 2 or not others:
        # likelier than all the rest together, or what is beside it are weeks like it
        return _led(_WEEK, best, others | _other_weeks(weeks, week), week)
    return _squaring(weeks, others)


def likeliest(clock: CropClock) -> float:
    """Give the chance of the likeliest week, or of not squaring where that is likelier.

    Parameters
    ----------
    clock : CropClock
        The season.

    Returns
    -------
    float
        [fraction]
    """
    week = clock.weeks.likely_week
    return clock.weeks.stretches[0][1] if week is None else clock.weeks.weeks[week - 1]


def _other_stretches(weeks: WeekOdds) -> dict[str, float]:
    """Word the stretches beside the likeliest that are worth telling, with their chances."""
    return {
        phrase(_OTHERS[stretch], odds=chance_words(chance)): chance
        for stretch, chance in weeks.stretches[1:]
        if chance >= _WORTH_TELLING
    }


def _other_weeks(weeks: WeekOdds, told: int) -> dict[str, float]:
    return {
        phrase("week {week}: {odds}", week=week, odds=chance_words(chance)): chance
        for week, chance in enumerate(weeks.weeks, start=1)
        if chance >= _WORTH_TELLING and week != told
    }


def _led(lead: tuple[str, str, str], chance: float, others: dict[str, float], week: int = 0) -> str:
    sure, alone, beside = lead
    if chance >= _CERTAIN:
        return phrase(sure, week=week, odds=chance_words(chance))
    told = "; ".join(sorted(others, key=lambda text: -others[text]))
    text = beside if told else alone
    return phrase(text, week=week, odds=chance_words(chance), others=told)


def _squaring(weeks: WeekOdds, others: dict[str, float]) -> str:
    """Tell that a field squares, in a week of which none is likelier than all the rest."""
    named = [
        phrase("week {week} ({odds})", week=week, odds=chance_words(chance))
        for week, chance in enumerate(weeks.weeks, start=1)
        if chance >= _WORTH_TELLING
    ]
    odds, beside = chance_words(weeks.stretches[0][1]), "; ".join(others)
    if not named:
        return phrase("Squaring, most likely: {odds}; {others}.", odds=odds, others=beside)
    return phrase(
        "Squaring, most likely: {odds}, in {weeks}; {others}.",
        odds=odds,
        weeks=listed(named, "or"),
        others=beside,
    )


def stands(clock: CropClock, *, replanted: bool = False) -> tuple[str, ...]:
    """Say when first square and bloom were or will be, and how that is known.

    Parameters
    ----------
    clock : CropClock
        The season.
    replanted : bool
        Whether an earlier stand was planted over.

    Returns
    -------
    tuple of str
        Sentences, in the language spoken.
    """
    return tuple(_stands(clock, replanted=replanted))


def _stands(clock: CropClock, *, replanted: bool) -> Iterator[str]:
    if clock.odds[Event.EMERGENCE].by(clock.on) < 1 / 2:
        yield _not_up(clock)
    yield _first_square(clock)
    if clock.bloom is not None or clock.weeks.blooming >= 1 / 2:
        yield _first_bloom(clock)
    yield from _cutout(clock)
    yield from _known_from(clock, planting_told(clock, replanted=replanted))


def _not_up(clock: CropClock) -> str:
    span = clock.odds[Event.EMERGENCE].within(RANGE)
    if span is None:
        return phrase("The stand is most likely not up yet.")
    return phrase(
        "The stand is most likely not up yet; it comes up {days}.",
        days=days_told(*span, clock.on),
    )


def _first_square(clock: CropClock) -> str:
    if clock.given.first_square is not None:
        days = days_told(*clock.given.first_square, clock.on)
        return phrase("First square is given as {days}.", days=days)
    told = _when(clock, Event.FIRST_SQUARE, _SQUARE)
    return told or phrase("First square lies past the days that can be worked out.")


def _first_bloom(clock: CropClock) -> str:
    if clock.given.bloom is not None:
        day = day_told(clock.given.bloom, clock.on)
        return phrase("First bloom is given as {day}.", day=day)
    told = _when(clock, Event.FIRST_BLOOM, _BLOOM)
    return told or phrase("First bloom lies past the days that can be worked out.")


def _when(clock: CropClock, event: Event, texts: tuple[str, ...]) -> str:
    odds, on = clock.odds[event], clock.on
    span, likely = odds.within(RANGE), odds.likely
    if span is None or likely is None:
        return ""
    first, last = span
    seen, past, across, ahead, one = texts
    if first == last:
        text = one
    elif last <= on:
        # what nobody saw is likely, and no more
        text = past if first_sight(clock, event) is None else seen
    else:
        text = ahead if first > on else across
    return phrase(
        text,
        days=days_told(first, last, on),
        first=day_told(first, on),
        last=day_told(last, on),
        likely=day_told(likely, on),
    )


def _cutout(clock: CropClock) -> Iterator[str]:
    """Say that a field has likely cut out; where that was seen the headline says so."""
    odds = clock.odds[Event.CUTOUT]
    unseen = cut_out(clock) is None and odds.by(clock.on) >= 1 / 2
    days = odds.within(RANGE)
    if unseen and odds.likely is not None and days is not None:
        yield phrase(
            "Cutout most likely came about {likely} ({days}); a count of nodes above white"
            " flower makes it sure.",
            likely=day_told(odds.likely, clock.on),
            days=days_told(*days, clock.on),
        )


def planting_told(clock: CropClock, *, replanted: bool) -> str:
    """Name the planting that a season counts from.

    Parameters
    ----------
    clock : CropClock
        The season.
    replanted : bool
        Whether an earlier stand was planted over.

    Returns
    -------
    str
        Such as ``planting on 9 May``, in the language spoken.
    """
    text = noted("replanting on {day}") if replanted else noted("planting on {day}")
    return phrase(text, day=day_told(clock.planted, clock.on))


def _known_from(clock: CropClock, planting: str) -> Iterator[str]:
    """Say what the days were worked out from, where not all of them were given."""
    if clock.given.first_square is not None:
        return
    days = counted_days(clock)
    if not clock.heat.known:
        text = _NO_HEAT_SEEN if days else _NO_HEAT
        yield phrase(text, planting=planting)
    elif not days:
        text = _ALL_ASIDE if looked(clock) else _NOTHING_SEEN
        yield phrase(text, planting=planting)
    elif len(days) <= _NAMED:
        named = [phrase_as("one day of a list", "{day}", day=day_told(d, clock.on)) for d in days]
        yield phrase(
            "That is worked out from the heat since {planting} and from what was seen on {days}.",
            planting=planting,
            days=listed(named),
        )
    else:
        yield phrase_for(
            len(days),
            "That is worked out from the heat since {planting}"
            " and from what was seen on {count} day, on {last}.",
            "That is worked out from the heat since {planting}"
            " and from what was seen on {count} days, the last on {last}.",
            planting=planting,
            last=day_told(days[-1], clock.on),
        )
