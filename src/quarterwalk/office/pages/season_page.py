"""The page of one field's season: where it stands, what comes next, and what that rests on."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from importlib.util import find_spec
from typing import Any

from django.urls import reverse
from django.utils.safestring import SafeString

from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.drawn import ENGLISH, safe_drawing
from quarterwalk.office.pages.page import Link, to_field
from quarterwalk.office.queries.season import SeasonSeen
from quarterwalk.picture import Theme
from quarterwalk.report.season_picture import key_of, picture_of
from quarterwalk.report.season_report import SeasonDay, SeasonReport
from quarterwalk.report.season_titles import season_titles

# A telephone's width less the margins, and the widest that lines are still easy to read. [px]
_NARROW, _WIDE = 328, 780


@dataclass(frozen=True, slots=True)
class Told:
    """A heading with its sentences."""

    id: str
    title: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeasonTold:
    """A season as its page shows it.

    Parameters
    ----------
    headline : str
        Where it stands, with its odds.
    stands : tuple of str
        When first square and bloom were or will be, and how that is known.
    wide, narrow : SafeString
        The picture.
    key : str
        How it is read.
    told : tuple of Told
        What comes next, doubts, and what settles them.
    days_title : str
        The heading of the table of days.
    columns : tuple of str
        Its heads.
    days : tuple of SeasonDay
        Its rows.
    days_note : str
        What its ranges mean.
    care : Told
        What to take care of.
    footing : Told
        What it stands on.
    pdf_to : str
        The same to print; empty where this office can't set it.
    """

    headline: str
    stands: tuple[str, ...]
    wide: SafeString
    narrow: SafeString
    key: str
    told: tuple[Told, ...]
    days_title: str
    columns: tuple[str, ...]
    days: tuple[SeasonDay, ...]
    days_note: str
    care: Told
    footing: Told
    pdf_to: str


@dataclass(frozen=True, slots=True)
class SeasonPage:
    """One field's season, or why it can't be told."""

    title: str
    about: str
    above: Link
    season: SeasonTold | None
    why_not: tuple[str, ...]
    seen_to: str


def season_page(row: FieldRow, seen: SeasonSeen) -> SeasonPage:
    """Word the page of a field's season.

    Parameters
    ----------
    row : FieldRow
        The field.
    seen : SeasonSeen
        Its season, as far as it can be worked out.

    Returns
    -------
    SeasonPage
    """
    report = seen.report
    return SeasonPage(
        title=f"{row.name}: season",
        about="" if report is None else report.about,
        above=to_field(row.name, row.public_id),
        season=None if report is None else _told(report, row),
        why_not=() if report else _why_not(seen),
        seen_to=reverse("field-seen", args=[row.public_id]),
    )


def _why_not(seen: SeasonSeen) -> tuple[str, ...]:
    said = "This season is over." if seen.over else "This season can't be worked out yet."
    return said, seen.why_not


def _told(report: SeasonReport, row: FieldRow) -> SeasonTold:
    named = season_titles(ENGLISH)
    parts: Mapping[str, tuple[str, Any]] = {
        "ahead": (named.ahead, report.ahead),
        "doubts": (named.doubts, report.doubts),
        "settle": (named.settle, report.settle),
    }
    return SeasonTold(
        headline=report.headline,
        stands=report.stands,
        wide=safe_drawing(picture_of(report, Theme.SCREEN, _WIDE, "season-wide")),
        narrow=safe_drawing(picture_of(report, Theme.SCREEN, _NARROW, "season-narrow")),
        key=" ".join(key_of(report)),
        told=tuple(Told(id, title, said) for id, (title, said) in parts.items() if said),
        days_title=named.days,
        columns=named.columns,
        days=report.days,
        days_note=report.days_note,
        care=Told("care", named.care, report.care),
        footing=Told("footing", named.footing, report.footing),
        pdf_to=reverse("field-season-pdf", args=[row.public_id]) if can_print() else "",
    )


def can_print() -> bool:
    """Tell whether this office can set a page to print.

    Returns
    -------
    bool
    """
    return find_spec("typst") is not None


def sheet_name(row: FieldRow, on: date) -> str:
    """Name the file of a season's sheet.

    Parameters
    ----------
    row : FieldRow
        The field.
    on : date
        The day that it tells of.

    Returns
    -------
    str
        Plain letters, digits and hyphens.
    """
    plain = re.sub(r"[^A-Za-z0-9]+", "-", row.name).strip("-").lower() or "field"
    return f"{plain}-season-{on.isoformat()}.pdf"
