"""Seasons as PDF, one sheet each, typeset."""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.picture import Theme
from quarterwalk.report.html import file_text
from quarterwalk.report.pdf import Paper
from quarterwalk.report.season_columns import cells_of, kept_columns
from quarterwalk.report.season_picture import key_of, picture_of
from quarterwalk.report.season_report import SeasonReport
from quarterwalk.report.season_titles import SeasonTitles, season_titles
from quarterwalk.report.season_unbroken import unbroken
from quarterwalk.report.typeset import picture_told, typeset

# Widths that the drawing is drawn for; the template takes the one that leaves most room. Its
# words of 14 px are set at 10 pt, so that the widest still has sentences beside it. [px]
_WIDTHS = (426, 372, 328)

_KNOWN = 3  # the column of how a day is known has the most words, and takes what room is left


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
    return {
        "field": report.field,
        "grower": {"before": before, "name": report.grower, "after": after},
        "about": report.about,
        "headline": unbroken(report.headline),
        "stands": [unbroken(each) for each in report.stands],
        "ahead": [unbroken(each) for each in report.ahead],
        "doubts": [unbroken(each) for each in report.doubts],
        "settle": [unbroken(each) for each in report.settle],
        "care": report.care,
        "days": _days(report, named),
        "key": unbroken(" ".join(key_of(report))),
        "days_note": unbroken(report.days_note),
        "footing": [unbroken(each) for each in report.footing],
        "titles": {
            "ahead": named.ahead,
            "doubts": named.doubts,
            "settle": named.settle,
            "days": named.days,
            "footing": named.footing,
            "care": named.care,
        },
        "seasons": [_drawn(report, f"{index}-{width}", width, pictures) for width in _WIDTHS],
    }


def _drawn(
    report: SeasonReport, name: str, width: int, pictures: dict[str, str]
) -> dict[str, object]:
    pictures[name] = picture_of(report, Theme.PRINT, width, "season", flat=True)
    return picture_told(name, pictures[name]) | {"width": width}


def _days(report: SeasonReport, named: SeasonTitles) -> dict[str, object]:
    """Give the table of days without the columns that would be empty."""
    kept = kept_columns(report.days)
    return {
        "heads": [named.columns[i] for i in kept],
        "wide": [i == _KNOWN for i in kept],
        "rows": [[cells_of(day)[i] for i in kept] for day in report.days],
    }
