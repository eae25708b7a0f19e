"""Seasons as PDF, one sheet each, typeset."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.picture import Theme
from quarterwalk.report.html import file_text
from quarterwalk.report.pdf import Paper
from quarterwalk.report.season_picture import picture_of
from quarterwalk.report.season_report import SeasonDay, SeasonReport
from quarterwalk.report.season_titles import season_titles
from quarterwalk.report.typeset import picture_told, typeset

# What the drawing is drawn for; it is set beside sentences, so that its words are as large
# as those of the foot. [px]
_WIDTH = 480


def season_pdf(reports: Sequence[SeasonReport], *, paper: Paper = Paper.LETTER) -> bytes:
    """Set seasons in one file, a sheet each, in the order given.

    Parameters
    ----------
    reports : sequence of SeasonReport
        At least one, all in one language.
    paper : Paper
        The sheet.

    Returns
    -------
    bytes
        A PDF with as many pages as seasons.

    Raises
    ------
    ValueError
        If there is no season.
    MissingExtra
        Where the report extra is not installed.
    """
    if not reports:
        raise ValueError("a PDF must have at least one season, got none.")
    pictures: dict[str, str] = {}
    told = [_told(report, i, pictures) for i, report in enumerate(reports)]
    first = reports[0]
    return typeset(
        file_text("season.typ"),
        {"paper": paper.value, "reports": told},
        pictures,
        title=_title(reports),
        on=max(report.on for report in reports),
        language=first.language,
    )


def _title(reports: Sequence[SeasonReport]) -> str:
    first = reports[0]
    kind = season_titles(first.language).kind
    return f"{first.field}: {kind}, {first.day}" if len(reports) == 1 else f"{kind}, {first.day}"


def _told(report: SeasonReport, index: int, pictures: dict[str, str]) -> dict[str, object]:
    """Give one season as the template reads it, and put its pictures with the others."""
    named = season_titles(report.language)
    before, _, after = named.grower.partition("{grower}")
    name = f"season-{index}"
    pictures[name] = picture_of(report, Theme.PRINT, _WIDTH, "season")
    return {
        "field": report.field,
        "grower": {"before": before, "name": report.grower, "after": after},
        "about": report.about,
        "headline": report.headline,
        "stands": report.stands,
        "ahead": report.ahead,
        "doubts": report.doubts,
        "settle": report.settle,
        "care": report.care,
        "days": [_day(day) for day in report.days],
        "days_note": report.days_note,
        "footing": report.footing,
        "titles": {
            "ahead": named.ahead,
            "doubts": named.doubts,
            "settle": named.settle,
            "days": named.days,
            "footing": named.footing,
            "care": named.care,
            "columns": named.columns,
        },
        "season": picture_told(name, pictures[name]),
    }


def _day(day: SeasonDay) -> dict[str, str]:
    return {
        "event": day.event,
        "likely": day.likely,
        "span": day.span,
        "known": day.known,
        "alone": day.alone,
        "code": day.code,
    }
