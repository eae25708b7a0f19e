"""The page of one walk: the call, why, and what was found."""

from __future__ import annotations

import re
from dataclasses import dataclass

from django.urls import reverse
from django.utils.safestring import SafeString

from quarterwalk.call.figures import day_words, listed
from quarterwalk.office.pages.days import moment
from quarterwalk.office.pages.drawn import mark_of
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.page import Link, to_field
from quarterwalk.office.pages.verdicts import verdict_class, verdict_said
from quarterwalk.office.pages.walk_call import WalkCall, walk_call
from quarterwalk.office.pages.walk_found import (
    Noted,
    QuarterLine,
    found_sketch,
    notes_of,
    plants_noted,
    quarter_lines,
    remarks_of,
)
from quarterwalk.office.queries.walk import KeptCall, WalkTold
from quarterwalk.plan import LEAST_DIGITS

_HASH = re.compile(rf"[0-9a-f]{{{LEAST_DIGITS},64}}")


@dataclass(frozen=True, slots=True)
class Earlier:
    """A call that another took the place of."""

    when: str
    mark: SafeString
    verdict: str
    verdict_class: str
    reasons: tuple[str, ...]
    rule: str


@dataclass(frozen=True, slots=True)
class WalkPage:
    """One walk.

    Parameters
    ----------
    title, about : str
        The field, and when it was walked by whom.
    above : Link or None
        The field's page.
    call : WalkCall or None
        The call; None where there is none.
    no_call : tuple of str
        Why there is no call.
    no_call_to : Link or None
        Where that is mended.
    lacking : tuple of str
        What is lacking of the walk.
    quarters : tuple of QuarterLine
        What was found in each.
    sketch : SafeString or str
        The field with what was found.
    notes : tuple of Noted
        Notes once a quarter.
    remarks : tuple of Noted
        What was seen on the way.
    plants : tuple of Noted
        Notes of single plants.
    facts : tuple of str
        Where the walk came from.
    earlier : tuple of Earlier
        Calls before this one, the newest first.
    table_to, strike_to : str
        The walk's table, and where it is left out; empty for whoever may not.
    """

    title: str
    about: str
    above: Link | None
    call: WalkCall | None
    no_call: tuple[str, ...]
    no_call_to: Link | None
    lacking: tuple[str, ...]
    quarters: tuple[QuarterLine, ...]
    sketch: SafeString | str
    notes: tuple[Noted, ...]
    remarks: tuple[Noted, ...]
    plants: tuple[Noted, ...]
    facts: tuple[str, ...]
    earlier: tuple[Earlier, ...]
    table_to: str
    strike_to: str


def walk_page(told: WalkTold, may: May) -> WalkPage:
    """Word the page of one walk.

    Parameters
    ----------
    told : WalkTold
        What is known of it.
    may : May
        Who reads it.

    Returns
    -------
    WalkPage
    """
    row, judged = told.row, told.judged
    call = None if judged is None else walk_call(judged, told.layout, may)
    name = row.field.name if row.field is not None else "A walk of an unknown field"
    return WalkPage(
        title=name,
        about=_about(told),
        above=None if row.field is None else to_field(f"All walks of {name}", row.field.public_id),
        call=call,
        no_call=() if call else _no_call(told),
        no_call_to=None if call else _mend(told, may),
        lacking=_lacking(told),
        quarters=() if judged is None else quarter_lines(judged),
        sketch="" if judged is None else found_sketch(judged, told.layout),
        notes=notes_of(told.notes) if may.walk else (),
        remarks=remarks_of(told.remarks, row.district.time_zone) if may.walk else (),
        plants=plants_noted(judged.walk.checks) if judged and may.walk else (),
        facts=tuple(_facts(told)),
        earlier=_all_earlier(told) if may.walk else (),
        table_to=reverse("walk-table", args=[row.walk_id]) if judged else "",
        strike_to=_strike_to(told, may),
    )


def _about(told: WalkTold) -> str:
    row = told.row
    parts = [day_words(row.on)] if row.on else []
    parts += [row.scouts.replace("\n", ", ")] if row.scouts else []
    parts.append("1 plant" if row.plants == 1 else f"{row.plants} plants")
    return " · ".join(parts)


def _no_call(told: WalkTold) -> tuple[str, ...]:
    row = told.row
    if row.state == "void":
        return ("This walk is left out: its opening was struck.",)
    if row.state == "unopened":
        return ("The beginning of this walk has not come in yet.",)
    if told.judged is None:
        return ("No plant of this walk has come in yet.",)
    if row.field is not None and not row.field.guideline:
        return ("No call yet: nobody has chosen the rule that this field is judged by.",)
    said = "No call yet: nobody has given the day of first square."
    why = told.judged.why_not
    return (said, f"It can't be worked out either. {why}") if why else (said,)


def _mend(told: WalkTold, may: May) -> Link | None:
    field = told.row.field
    if field is None or told.judged is None or not may.lead:
        return None
    if not field.guideline:
        return Link("Choose the rule", reverse("field-rule", args=[field.public_id]))
    return Link("Give the dates", reverse("field-dates", args=[field.public_id]))


def _lacking(told: WalkTold) -> tuple[str, ...]:
    judged = told.judged
    if judged is None:
        return ()
    names = listed(list(told.phones), "or")
    waits = f"from {names}." if names else "from the phone."
    return tuple(text.replace("from the phone.", waits) for text in judged.lacking)


def _facts(told: WalkTold) -> list[str]:
    row = told.row
    came = {
        "phone": f"From {', '.join(told.phones) or 'a phone'}.",
        "desk": "Typed in from a sheet.",
        "table": "From a table.",
    }
    facts = [came[row.source]] if row.source in came else []
    if row.label:
        facts.append(f"In the table it is called {row.label}.")
    if row.plan:
        facts.append(f"It names stop plan {_short(row.plan)}.")
    if row.closed_at is not None and row.source == "phone":
        facts.append(f"Closed on {moment(row.closed_at, row.district.time_zone)}.")
    return facts


def _short(plan: str) -> str:
    """Name a plan by the first digits of its hash; what is no hash stands as it is."""
    return plan[:LEAST_DIGITS] if _HASH.fullmatch(plan) else plan


def _all_earlier(told: WalkTold) -> tuple[Earlier, ...]:
    return tuple(_earlier(each, told) for each in reversed(told.kept[:-1]))


def _earlier(kept: KeptCall, told: WalkTold) -> Earlier:
    call, used = kept.told["call"], kept.told["call"]["guideline"]
    when = moment(kept.made_at, told.row.district.time_zone)
    return Earlier(
        when=when,
        mark=mark_of(call["verdict"], f"earlier-{kept.made_at:%Y%m%d%H%M%S%f}"),
        verdict=verdict_said(kept.told),
        verdict_class=verdict_class(kept.told),
        reasons=tuple(reason["text"] for reason in call["reasons"]),
        rule=f"{used['name']}, edition {used['edition']}, content {used['hash'][:12]}",
    )


def _strike_to(told: WalkTold, may: May) -> str:
    row = told.row
    ours = row.source in ("desk", "table") and row.state != "void"
    return reverse("walk-strike", args=[row.walk_id]) if may.lead and ours else ""
