"""The page of one field: how it stands, how it is judged, its walks and what was seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils.safestring import SafeString

from quarterwalk.call.figures import capital
from quarterwalk.office.models import WalkRow
from quarterwalk.office.pages.days import moment
from quarterwalk.office.pages.drawn import ENGLISH, mark_of, rung_drawn, safe_drawing
from quarterwalk.office.pages.due import asks_to_treat, due_of
from quarterwalk.office.pages.ending import ending_fact
from quarterwalk.office.pages.judged_by import Fact, judged_by
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.measured import (
    insects_unit,
    insects_words,
    rung_of,
    squares_unit,
    squares_words,
)
from quarterwalk.office.pages.page import Link, to_fields
from quarterwalk.office.pages.season import sign_of, stage_words
from quarterwalk.office.pages.sizes import size_said
from quarterwalk.office.pages.verdicts import doubt_words, verdict_class, verdict_said
from quarterwalk.office.pages.walk_found import Noted, remarks_of
from quarterwalk.office.queries.field import FieldTold
from quarterwalk.office.rule_season import season_is_over
from quarterwalk.picture import Theme, field_sketch
from quarterwalk.picture.ladder import Rung

_SKETCH = (350, 340)  # [px]


@dataclass(frozen=True, slots=True)
class WalkLine:
    """One walk in the list of a field."""

    day: str
    to: str
    scouts: str
    insects: str
    insects_unit: str
    squares: str
    squares_unit: str
    rung: SafeString
    mark: SafeString
    verdict: str
    verdict_class: str
    doubt: str


@dataclass(frozen=True, slots=True)
class FieldPage:
    """One field.

    Parameters
    ----------
    title, about : str
        Its name, and whose and how large it is.
    above : Link
        The list of fields.
    closed : tuple of str
        That nobody may enter now, and why; none where it is open.
    large : str
        That it is too large for one walk; empty where it is not.
    due : str
        When it is looked at next.
    treated_to : str
        Where the day of a treatment is given, where the call is to treat; empty for whoever
        may not.
    sketch : SafeString
        Its quarters, and for those who walk today's stops.
    sketch_note : str
        What the sketch shows.
    judged : tuple of Fact
        How it is judged, each with the way to change it.
    walks : tuple of WalkLine
        The newest first.
    remarks : tuple of Noted
        What was seen, and notes.
    desk_to : str
        Where a walk is typed in; empty for whoever may not.
    """

    title: str
    about: str
    above: Link
    closed: tuple[str, ...]
    large: str
    due: str
    treated_to: str
    sketch: SafeString
    sketch_note: str
    judged: tuple[Fact, ...]
    walks: tuple[WalkLine, ...]
    remarks: tuple[Noted, ...]
    desk_to: str


def field_page(told: FieldTold, may: May) -> FieldPage:
    """Word the page of one field.

    Parameters
    ----------
    told : FieldTold
        What is known of it.
    may : May
        Who reads it.

    Returns
    -------
    FieldPage
    """
    row = told.standing.field
    zone = row.district.time_zone
    return FieldPage(
        title=row.name,
        about=" · ".join(_about(told, may)),
        above=to_fields(),
        closed=tuple(_closed(told)),
        large=size_said(row.name, row.acres) if may.walk else "",
        due=_due(told),
        treated_to=_treated_to(told, may),
        sketch=_sketch(told, way=may.walk),
        sketch_note="The stops of today: another day has others." if may.walk else "",
        judged=(*judged_by(told, may), *((ending_fact(told, may),) if may.walk else ())),
        walks=tuple(_walk(walk, told, may) for walk in told.walks),
        remarks=remarks_of(told.remarks, zone) if may.walk else (),
        desk_to=reverse("desk-walk", args=[row.public_id]) if may.walk else "",
    )


def _about(told: FieldTold, may: May) -> Iterator[str]:
    row = told.standing.field
    if row.grower is not None:
        yield row.grower.name
    if row.farm:
        yield row.farm
    yield f"{row.acres:.0f} acres"
    stage = stage_words(told.standing.crop.stage, odds=may.odds)
    if stage:
        yield stage
    stood, today = told.standing.crop.stage, told.now.date()
    sign = "" if season_is_over(row, stood, today) else sign_of(stood)
    if sign and may.walk:
        yield sign


def _closed(told: FieldTold) -> Iterator[str]:
    row = told.standing.field
    if row.closed_until is None or row.closed_until <= told.now:
        return
    yield f"Closed until {moment(row.closed_until, row.district.time_zone)}."
    yield "Nobody walks in before."
    if row.closed_why:
        yield row.closed_why


def _due(told: FieldTold) -> str:
    due = due_of(told.standing, told.now.date())
    since = capital(due.since)
    if due.on is None:
        why = "" if due.why == "no look due" else f": {due.why}"
        return f"No look due{why}. {since}."
    if due.why == "due today":
        return f"Due today. {since}."
    late = "Due now" if due.may_be(told.now.date()) else "Next look"
    return f"{late}: {due.why}. {since}."


def _treated_to(told: FieldTold, may: May) -> str:
    standing, today = told.standing, told.now.date()
    row = standing.field
    waits = asks_to_treat(standing, today) and not season_is_over(row, standing.crop.stage, today)
    return reverse("field-dates", args=[row.public_id]) if may.lead and waits else ""


def _sketch(told: FieldTold, *, way: bool) -> SafeString:
    return safe_drawing(
        field_sketch(
            told.layout,
            theme=Theme.SCREEN,
            width=_SKETCH[0],
            height=_SKETCH[1],
            id="sketch",
            language=ENGLISH,
            way=way,
        )
    )


_STATES = {
    "open": "going on",
    "handed-over": "handed over",
    "unopened": "not all here",
    "void": "left out",
}


def _walk(row: WalkRow, told: FieldTold, may: May) -> WalkLine:
    call = told.calls.get(row.walk_id) if row.state != "void" else None
    insects, _ = insects_words(call)
    squares, _ = squares_words(call)
    state = _STATES.get(row.state, "")
    return WalkLine(
        day=f"{row.on.day} {row.on:%B}" if row.on else "No day yet",
        to=reverse("walk", args=[row.walk_id]),
        scouts=row.scouts.replace("\n", ", "),
        insects=insects,
        insects_unit=insects_unit(insects),
        squares=squares,
        squares_unit=squares_unit(squares),
        rung=rung_drawn(
            Rung() if call is None else rung_of(call),
            f"Insects {insects}, squares {squares}.",
            f"rung-{row.walk_id}",
        ),
        mark=mark_of(call["call"]["verdict"] if call else "none", f"mark-{row.walk_id}"),
        verdict=state if row.state == "void" else verdict_said(call),
        verdict_class=verdict_class(call),
        doubt=state if row.state != "void" and state else doubt_words(call, may),
    )
