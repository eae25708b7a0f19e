"""The list of fields: who waits, in order of urgency."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum

from django.urls import reverse
from django.utils.safestring import SafeString

from quarterwalk.call.figures import day_words
from quarterwalk.office.pages.drawn import mark_of, rung_drawn
from quarterwalk.office.pages.due import (
    CHECK_FLOWERS,
    CHECK_PLANTING,
    SEASON_OVER,
    Due,
    asks_to_treat,
    due_of,
)
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.measured import (
    insects_unit,
    insects_words,
    rung_of,
    squares_unit,
    squares_words,
)
from quarterwalk.office.pages.season import sign_of, stage_words
from quarterwalk.office.pages.verdicts import doubt_words, verdict_class, verdict_said
from quarterwalk.office.queries.standing import Standing
from quarterwalk.picture.ladder import Rung


class Urgency(Enum):
    """The groups of the list, the most urgent first."""

    TREAT = "Treat"
    LATE = "Late"
    TODAY = "Due today"
    OPEN = "May be done today"
    LATER = "Later"
    UNKNOWN = "No dates or rule yet"
    OVER = "No look due"


@dataclass(frozen=True, slots=True)
class FieldLine:
    """One field in the list."""

    name: str
    to: str
    whose: str
    check: str
    insects: str
    line: str
    insects_unit: str
    squares: str
    floor: str
    squares_unit: str
    rung: SafeString
    mark: SafeString
    verdict: str
    verdict_class: str
    doubt: str
    why: str
    since: str
    closed: bool


@dataclass(frozen=True, slots=True)
class FieldGroup:
    """Fields of one urgency."""

    title: str
    lines: tuple[FieldLine, ...]


@dataclass(frozen=True, slots=True)
class FieldList:
    """The list of fields.

    Parameters
    ----------
    title : str
        Today's date.
    counts : str
        How many fields, and how many of them wait.
    groups : tuple of FieldGroup
        None of them empty.
    empty : tuple of str
        What to say where there is no field.
    import_to : str
        Where boundaries are handed in; empty for whoever may not.
    """

    title: str
    counts: str
    groups: tuple[FieldGroup, ...]
    empty: tuple[str, ...]
    import_to: str


@dataclass(frozen=True, slots=True)
class _Placed:
    """A field with its group and its day."""

    standing: Standing
    due: Due
    urgency: Urgency


def field_list(standings: Sequence[Standing], today: date, may: May) -> FieldList:
    """Put fields in order of urgency.

    Parameters
    ----------
    standings : sequence of Standing
        What is known of each.
    today : date
        The day in the district.
    may : May
        What whoever looks may do.

    Returns
    -------
    FieldList
    """
    placed = sorted((_placed(each, today) for each in standings), key=_order)
    groups = [
        FieldGroup(
            urgency.value, tuple(_line(p, today, may) for p in placed if p.urgency is urgency)
        )
        for urgency in Urgency
    ]
    return FieldList(
        title=day_words(today),
        counts=" · ".join(_counts(placed)) if placed else "",
        groups=tuple(group for group in groups if group.lines),
        empty=() if placed else _empty(may),
        import_to=reverse("fields-import") if may.lead else "",
    )


def _placed(standing: Standing, today: date) -> _Placed:
    due = due_of(standing, today)
    return _Placed(standing, due, _urgency(standing, due, today))


def _urgency(standing: Standing, due: Due, today: date) -> Urgency:
    if due.why == SEASON_OVER:
        return Urgency.OVER
    if not standing.field.guideline or standing.dates is None:
        return Urgency.UNKNOWN
    if asks_to_treat(standing, today):
        return Urgency.TREAT
    if due.on is None:
        return Urgency.OVER
    if due.on < today:
        return Urgency.LATE
    if due.on == today:
        return Urgency.TODAY
    return Urgency.OPEN if due.may_be(today) else Urgency.LATER


def _order(placed: _Placed) -> tuple[int, date, str]:
    place = list(Urgency).index(placed.urgency)
    return place, placed.due.on or date.max, placed.standing.field.name


def _line(placed: _Placed, today: date, may: May) -> FieldLine:
    field, told, due = placed.standing.field, placed.standing.call, placed.due
    insects, line = insects_words(told)
    squares, floor = squares_words(told)
    over = due.why == SEASON_OVER  # then an old call calls for nothing any more
    doubted = due.why in (CHECK_FLOWERS, CHECK_PLANTING)  # then the sign would say it twice
    call = None if over else told
    verdict = SEASON_OVER if over else verdict_said(told)
    stage = stage_words(placed.standing.crop.stage, odds=may.odds)
    lacking = _lacking(placed.standing) if placed.urgency is Urgency.UNKNOWN else ""
    return FieldLine(
        name=field.name,
        to=reverse("field", args=[field.public_id]),
        whose=", ".join(part for part in (field.grower and field.grower.name, stage) if part),
        check=sign_of(placed.standing.crop.stage) if may.walk and not (over or doubted) else "",
        insects=insects,
        line=line,
        insects_unit=insects_unit(insects),
        squares=squares,
        floor=floor,
        squares_unit=squares_unit(squares),
        rung=rung_drawn(
            Rung() if told is None else rung_of(told),
            _heard(insects, line, squares, floor),
            f"rung-{field.public_id}",
        ),
        mark=mark_of(call["call"]["verdict"] if call else "none", f"mark-{field.public_id}"),
        verdict=verdict,
        verdict_class=verdict_class(call),
        doubt=doubt_words(call, may),
        why=lacking or due.why,
        since=due.since,
        closed=field.closed_until is not None,
    )


def _heard(insects: str, line: str, squares: str, floor: str) -> str:
    if not line:
        return "Nothing is compared with a line."
    said = f"Insects {insects}, line {line}"
    return f"{said}; squares {squares}, floor {floor}." if floor else f"{said}."


def _lacking(standing: Standing) -> str:
    if not standing.field.guideline:
        return "no rule yet"
    return "no dates yet"


def _counts(placed: Sequence[_Placed]) -> Iterable[str]:
    yield "1 field" if len(placed) == 1 else f"{len(placed)} fields"
    told = (
        (Urgency.TREAT, "to treat"),
        (Urgency.LATE, "late"),
        (Urgency.TODAY, "due today"),
        (Urgency.OPEN, "may be done today"),
    )
    for urgency, word in told:
        count = sum(p.urgency is urgency for p in placed)
        if count:
            yield f"{count} {word}"


def _empty(may: May) -> tuple[str, ...]:
    if may.lead:
        return (
            "There are no fields yet.",
            "Begin with a file of their boundaries: a zipped Shapefile, GeoJSON, KML or a"
            " GeoPackage. Then hand in a table of plantings, or give each field its dates.",
        )
    if may.walk:
        return ("There are no fields yet.", "The lead of the district hands in their boundaries.")
    return ("No field is yours yet.", "Ask the lead of the district to name you as the grower.")
