"""How a field is judged: rule, line, dates, and until when it is closed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from quarterwalk.call.figures import capital, listed, number
from quarterwalk.crop import CropDates
from quarterwalk.guideline import Guideline
from quarterwalk.office.crop_clocks import CropStanding
from quarterwalk.office.models import SeasonRow
from quarterwalk.office.pages.days import moment, short_day
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.season import rests_on, stage_words
from quarterwalk.office.pages.seen import seen_words
from quarterwalk.office.queries.field import FieldTold
from quarterwalk.office.translate_season import stand_planted

# Notes of what was seen that stand on a field's page; all stand on their own. [count]
_SHOWN = 3


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that a field is judged by.

    Parameters
    ----------
    name : str
        What it is.
    said : tuple of str
        What is known of it.
    change : str
        Words of the way to change it.
    to : str
        That way; empty for whoever may not.
    """

    name: str
    said: tuple[str, ...]
    change: str
    to: str


def judged_by(told: FieldTold, may: May) -> tuple[Fact, ...]:
    """Say how a field is judged.

    Parameters
    ----------
    told : FieldTold
        What is known of it.
    may : May
        Who reads it.

    Returns
    -------
    tuple of Fact
    """
    row = told.standing.field

    def way(name: str) -> str:
        return reverse(name, args=[row.public_id]) if may.lead else ""

    facts = [
        *_stands(told, may),
        Fact("Rule", tuple(_rule(told)), "Change the rule", way("field-rule")),
        Fact("Dates", tuple(_dates(told, may)), "Change the dates", way("field-dates")),
        Fact("Closed", (_closed(told),), "Close or open it", way("field-closed")),
    ]
    return tuple(facts)


def _rule(told: FieldTold) -> Iterator[str]:
    rule = told.guideline
    if rule is None:
        yield "No rule yet, so no call can be made."
        return
    yield rule.title
    yield f"Line {_line(rule, told.standing.field.line)}; edition {rule.edition}"


def _line(rule: Guideline, chosen: str) -> str:
    ranges = [
        number(line.low) if line.low == line.high else f"{number(line.low)} to {number(line.high)}"
        for line in rule.lines
    ]
    published = ", then ".join(ranges)
    if chosen:
        return f"{chosen} per 100, chosen from {published}"
    if any(line.low != line.high for line in rule.lines):
        return f"{number(rule.lines[0].low)} per 100, the lower end of {published}"
    return f"{published} per 100"


def _stands(told: FieldTold, may: May) -> Iterator[Fact]:
    """Say where the crop stands and how that is known, with the way to its season."""
    crop, row = told.standing.crop, told.standing.field
    words = stage_words(crop.stage, odds=may.odds)
    said = [capital(words)] if words else []
    if words:
        said.append(_rests_on(crop))
    planted = stand_planted(told.season) is not None
    to = reverse("field-season", args=[row.public_id]) if may.walk and planted else ""
    if said or to:
        yield Fact("Where it stands", tuple(said or ("Not known yet",)), "Season", to)
    if may.walk:
        seen = tuple(f"{short_day(each.on)}: {seen_words(each)}" for each in told.seen[:_SHOWN])
        to = reverse("field-seen", args=[row.public_id])
        yield Fact("Seen of the crop", seen or ("Nothing noted yet",), "Note what was seen", to)


def _rests_on(crop: CropStanding) -> str:
    if crop.worked is not None:
        return rests_on(crop.worked)
    if _by_flowers(crop):
        return "By the dates given, and the white flowers that were seen"
    return "By the dates given"


def _dates(told: FieldTold, may: May) -> Iterator[str]:
    season, dates, crop = told.season, told.dates, told.standing.crop
    if season is not None and season.planted is not None:
        yield f"Planted {short_day(season.planted)}"
    if season is not None and season.replanted is not None:
        yield f"Planted again {short_day(season.replanted)}"
    if season is not None and (known := _known_besides(season)):
        yield known
    if dates is None:
        lacking = "Day of first square not given, so no call can be made."
        ask = may.lead and not crop.why_not and stand_planted(season) is not None
        yield f"{lacking} Give it, or hand in weather." if ask else lacking
        if crop.why_not:
            yield f"It can't be worked out either. {crop.why_not}"
        return
    if crop.worked is None:
        yield f"First square {_day_or_range(dates.first_square, dates.first_square_latest)}"
    else:
        yield _worked_out(crop, may)
    yield _bloom(dates, crop)
    year = told.now.year
    treated = [short_day(day) for day in sorted(dates.treated) if day.year == year]
    if treated:
        yield f"Treated {', '.join(treated)}"


def _bloom(dates: CropDates, crop: CropStanding) -> str:
    """Say when first bloom was: as somebody gave it, or since when white flowers are noted."""
    if dates.bloom is None:
        return "No bloom seen yet"
    day = short_day(dates.bloom)
    if _by_flowers(crop):
        return f"White flowers seen {day}; that day stands for first bloom"
    return f"First bloom {day}"


def _by_flowers(crop: CropStanding) -> bool:
    return crop.stage is not None and crop.stage.flowers.on is not None


def _known_besides(season: SeasonRow) -> str:
    """Say what a table of plantings told of a season besides its dates; empty where nothing."""
    hail = [short_day(date.fromisoformat(day)) for day in season.hail.split()]
    parts = (
        season.variety and f"variety {season.variety}",
        season.seed_treatment and f"seed treatment {season.seed_treatment}",
        season.water and f"water: {season.water}",
        f"hail on {listed(hail)}" if hail else "",
    )
    return capital(", ".join(filter(None, parts)))


def _worked_out(crop: CropStanding, may: May) -> str:
    """Say when first square was or will be, by the crop's clock."""
    worked = None if crop.stage is None else crop.stage.worked_out
    if worked is None:
        return "First square not given"
    likely = f"First square not given; worked out as about {short_day(worked.likely)}"
    if not may.odds or worked.first == worked.last:
        return likely
    days = f"{short_day(worked.first)} to {short_day(worked.last)}"
    return f"{likely}, 9 in 10 from {days}"


def _day_or_range(first: date, latest: date | None) -> str:
    return short_day(first) if latest is None else f"{short_day(first)} to {short_day(latest)}"


def _closed(told: FieldTold) -> str:
    row = told.standing.field
    if row.closed_until is None or row.closed_until <= told.now:
        return "No. Look for a sign at the gate all the same."
    return f"Until {moment(row.closed_until, row.district.time_zone)}"
