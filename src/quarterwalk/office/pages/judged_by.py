"""How a field is judged: rule, line, dates, and until when it is closed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from quarterwalk.call.figures import number
from quarterwalk.guideline import Guideline
from quarterwalk.office.pages.days import moment, short_day
from quarterwalk.office.pages.may import May
from quarterwalk.office.queries.field import FieldTold


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
        Fact("Rule", tuple(_rule(told)), "Change the rule", way("field-rule")),
        Fact("Dates", tuple(_dates(told)), "Change the dates", way("field-dates")),
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


def _dates(told: FieldTold) -> Iterator[str]:
    season, dates = told.season, told.dates
    if season is not None and season.planted is not None:
        yield f"Planted {short_day(season.planted)}"
    if season is not None and season.replanted is not None:
        yield f"Planted again {short_day(season.replanted)}"
    if dates is None:
        yield "Day of first square not given, so no call can be made."
        return
    yield f"First square {_day_or_range(dates.first_square, dates.first_square_latest)}"
    yield f"First bloom {short_day(dates.bloom)}" if dates.bloom else "No bloom seen yet"
    year = told.now.year
    treated = [short_day(day) for day in sorted(dates.treated) if day.year == year]
    if treated:
        yield f"Treated {', '.join(treated)}"


def _day_or_range(first: date, latest: date | None) -> str:
    return short_day(first) if latest is None else f"{short_day(first)} to {short_day(latest)}"


def _closed(told: FieldTold) -> str:
    row = told.standing.field
    if row.closed_until is None or row.closed_until <= told.now:
        return "No. Look for a sign at the gate all the same."
    return f"Until {moment(row.closed_until, row.district.time_zone)}"
