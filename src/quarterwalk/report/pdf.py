"""Reports as PDF, one sheet each, typeset."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from quarterwalk.picture import Theme
from quarterwalk.report.day import reports_title
from quarterwalk.report.html import file_text
from quarterwalk.report.pictures import outcomes_picture, pinch_picture, where_picture
from quarterwalk.report.report import Report
from quarterwalk.report.titles import titles
from quarterwalk.report.typeset import picture_told, typeset
from quarterwalk.words import spoken_in

# Drawings are as wide as the sheet between its margins. Drawn wider they are set smaller,
# and so lower, which makes room for many reasons. [px]
_WIDTHS = {"": 680, "_tight": 760, "_tightest": 860}
# The sketch stands beside words, so it is drawn so narrow that its smallest letters, of
# 14 px, are printed at 8.5 points or more: in the narrowest column, and in a wide one that
# leaves no more height.
_WHERES = {"": (300, 250), "_wide": (400, 250)}


class Paper(StrEnum):
    """The sheet that a report is set on."""

    LETTER = "us-letter"
    A4 = "a4"


def report_pdf(report: Report, *, paper: Paper = Paper.LETTER) -> bytes:
    """Set one report on one sheet.

    Parameters
    ----------
    report : Report
        The report.
    paper : Paper
        The sheet.

    Returns
    -------
    bytes
        A PDF of one page.

    Raises
    ------
    MissingExtra
        Where the report extra is not installed.
    """
    return reports_pdf([report], paper=paper)


def reports_pdf(reports: Sequence[Report], *, paper: Paper = Paper.LETTER) -> bytes:
    """Set many reports in one file, a sheet each, in the order given.

    Parameters
    ----------
    reports : sequence of Report
        At least one, all in one language.
    paper : Paper
        The sheet.

    Returns
    -------
    bytes
        A PDF with as many pages as reports.

    Raises
    ------
    ValueError
        If there is no report.
    MissingExtra
        Where the report extra is not installed.
    """
    if not reports:
        raise ValueError("a PDF must have at least one report, got none.")
    pictures: dict[str, str] = {}
    told = [_told(report, i, pictures) for i, report in enumerate(reports)]
    first = reports[0]
    return typeset(
        file_text("report.typ"),
        {"paper": paper.value, "reports": told},
        pictures,
        title=_title(reports),
        on=max(report.on for report in reports),
        language=first.language,
    )


def _title(reports: Sequence[Report]) -> str:
    first = reports[0]
    if len(reports) == 1:
        return f"{first.field}, {first.day}"
    with spoken_in(first.language):
        return reports_title([report.on for report in reports])


def _told(report: Report, index: int, pictures: dict[str, str]) -> dict[str, object]:
    """Give one report as the template reads it, and put its pictures with the others."""
    named, ink = titles(report.language), Theme.PRINT
    before, _, after = named.grower.partition("{grower}")
    drawn = {
        f"where{manner}": where_picture(report, ink, size, "where")
        for manner, size in _WHERES.items()
    }
    for manner, width in _WIDTHS.items():
        drawn[f"outcomes{manner}"] = outcomes_picture(report, ink, width, "outcomes")
        drawn[f"pinch{manner}"] = pinch_picture(report, ink, width, "pinch")
    for name, svg in drawn.items():
        pictures[f"{name}-{index}"] = svg
    return {
        "field": report.field,
        "grower": {"before": before, "name": report.grower, "after": after},
        "about": report.about,
        "headline": report.headline,
        "reasons": report.reasons,
        "sure": report.sure,
        "next_look": (*report.next_look, report.host_weeds),
        "care": report.care,
        "found_note": report.found_note,
        "ask": report.ask,
        "foot": report.footing.paragraphs,
        "titles": {
            "why": named.why,
            "where": named.where,
            "sure": named.sure,
            "next_look": named.next_look,
            "care": named.care,
        },
        **{name: picture_told(f"{name}-{index}", svg) for name, svg in drawn.items()},
    }
