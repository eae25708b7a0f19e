"""What is due: the last call of each field, and when it is looked at next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch, QuerySet

from quarterwalk.call.figures import day_words
from quarterwalk.crop import StageName, stage_on
from quarterwalk.office.models import FieldRow, SeasonRow, Treatment, WalkRow
from quarterwalk.office.services.calls import Judged, calls_for
from quarterwalk.office.translate import to_dates


@dataclass(frozen=True, slots=True)
class Due:
    """One field with its last call and its next look.

    Parameters
    ----------
    field : FieldRow
        The field.
    last : Judged or None
        Its last walk with plants in this season; None where there is none.
    on : date or None
        The day by which it is looked at next; None where no look is due.
    why : str
        Why, in a few words.
    stage : str
        Where the crop stands, in a few words.
    """

    field: FieldRow
    last: Judged | None
    on: date | None
    why: str
    stage: str


def with_season(fields: QuerySet[FieldRow]) -> list[FieldRow]:
    """Fetch fields with all that a call and a card need.

    Parameters
    ----------
    fields : QuerySet of FieldRow
        Which.

    Returns
    -------
    list of FieldRow
    """
    return list(
        fields.select_related("grower", "district").prefetch_related(
            Prefetch("seasons", SeasonRow.objects.order_by("year")),
            Prefetch("treatments", Treatment.objects.order_by("on")),
        )
    )


def due_fields(fields: Sequence[FieldRow], today: date) -> list[Due]:
    """Say of each field when it is looked at next, the soonest first.

    Parameters
    ----------
    fields : sequence of FieldRow
        From `with_season`.
    today : date
        The day in the district.

    Returns
    -------
    list of Due
    """
    last = _last_walks(fields, today.year)
    judged = calls_for(last.values())
    found = [
        _due(field, judged.get(last[field.pk].walk_id) if field.pk in last else None, today)
        for field in fields
    ]
    return sorted(found, key=lambda due: (due.on is None, due.on or today, due.field.name))


def _last_walks(fields: Sequence[FieldRow], year: int) -> dict[int, WalkRow]:
    """Find the newest walk with plants of each field in a season."""
    rows = WalkRow.objects.filter(
        field__in=[field.pk for field in fields], plants__gt=0, on__year=year
    ).exclude(state__in=("void", "unopened"))
    found: dict[int, WalkRow] = {}
    for row in rows.order_by("on", "opened_at", "walk_id"):
        if row.field_id is not None:
            found[row.field_id] = row
    return found


def _due(field: FieldRow, last: Judged | None, today: date) -> Due:
    stage = _stage(field, today)
    if last is None:
        return _first_look(field, today, stage)
    walked = day_words(last.walk.date)
    if last.call is None:
        return Due(field, last, last.walk.date, f"no call yet, walked {walked}", stage)
    look = last.call.next_look
    if look is None:
        return Due(field, last, None, f"no look due, walked {walked}", stage)
    days = (look.latest - last.walk.date).days
    noun = "day" if days == 1 else "days"
    return Due(field, last, look.latest, f"{days} {noun} on, walked {walked}", stage)


def _first_look(field: FieldRow, today: date, stage: str) -> Due:
    """Say when a field is looked at for the first time: once it squares, or now if nobody knows."""
    dates = to_dates(field, today)
    if dates is None or dates.first_square <= today:
        return Due(field, None, today, "first look", stage)
    begins = day_words(dates.first_square)
    return Due(field, None, dates.first_square, f"first look, squares from {begins}", stage)


def _stage(field: FieldRow, today: date) -> str:
    dates = to_dates(field, today)
    if dates is None:
        return "first square not given"
    stage = stage_on(today, dates)
    if stage.name is StageName.BEFORE_SQUARING:
        return "before squaring"
    if stage.name is StageName.BLOOMING:
        return "blooming"
    weeks = " or ".join(str(week) for week in stage.squaring_weeks)
    low, high = max(stage.days[0], 0), stage.days[1]
    day = f"day {high + 1}" if low == high else f"day {low + 1} to {high + 1}"
    return f"week {weeks}, {day}"
