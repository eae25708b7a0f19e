"""One field's season as one web page that needs nothing beside it."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from quarterwalk.picture import Theme
from quarterwalk.report.html import policy, section, styles, template
from quarterwalk.report.season_columns import cells_of, kept_columns
from quarterwalk.report.season_picture import key_of, picture_of
from quarterwalk.report.season_report import SeasonDay, SeasonReport
from quarterwalk.report.season_titles import SeasonTitles, season_titles
from quarterwalk.report.season_unbroken import unbroken

# A telephone's width less the margins, and the room of the widest page, where the words of
# the drawing are as large as they are drawn. [px]
_NARROW, _WIDE = 328, 720

_CLASSES = ("event", "likely", "span", "known", "alone", "code")


def season_html(report: SeasonReport) -> str:
    """Show a season as one self-contained web page.

    Parameters
    ----------
    report : SeasonReport
        The season.

    Returns
    -------
    str
        HTML without script, its styles in one place.
    """
    css, named = styles("base.css", "season.css"), season_titles(report.language)
    plain = {
        "language": report.language,
        "policy": policy(css),
        "title": f"{report.field}: {named.kind}, {report.day}",
        "field": report.field,
        "headline": unbroken(report.headline),
        "manner": "told in-doubt" if _in_columns(report) else "told",
        "days_title": named.days,
        "days_note": report.days_note,
        "footing_title": named.footing,
    }
    return template("season.html").substitute(
        {name: escape(text) for name, text in plain.items()},
        style=css,
        about=_about(report, named),
        stands=_paragraphs(report.stands),
        season_narrow=picture_of(report, Theme.SCREEN, _NARROW, "season-narrow"),
        season_wide=picture_of(report, Theme.SCREEN, _WIDE, "season-wide"),
        season_sheet=picture_of(report, Theme.SCREEN, _NARROW, "season-sheet", flat=True),
        key=escape(" ".join(key_of(report))),
        ahead=section(named.ahead, report.ahead, cls="ahead", tag="li"),
        doubts=section(named.doubts, report.doubts, cls="doubts", tag="li"),
        settle=section(named.settle, report.settle, cls="settle", tag="li"),
        days=_days(report.days, named.columns),
        care=section(named.care, report.care, cls="care", tag="li"),
        footing=_paragraphs(report.footing),
    )


def _in_columns(report: SeasonReport) -> bool:
    """Whether sentences stand in two columns: only where neither would be empty."""
    return bool(report.doubts and (report.ahead or report.settle))


def _about(report: SeasonReport, named: SeasonTitles) -> str:
    """Say whose it is, when and how large; the grower's name stands out."""
    lines = [escape(report.about)]
    if report.grower:
        name = f"<b><bdi>{escape(report.grower)}</bdi></b>"
        lines.insert(0, escape(named.grower).format(grower=name))
    return "\n".join(f"<span>{line}</span>" for line in lines)


def _paragraphs(told: Iterable[str]) -> str:
    return "\n".join(f"<p>{escape(text)}</p>" for text in told)


def _days(days: tuple[SeasonDay, ...], columns: tuple[str, ...]) -> str:
    """Set the days as a table; its roles are said, since a telephone shows it as blocks."""
    kept = kept_columns(days)
    heads = "".join(
        f'<th scope="col" role="columnheader">{escape(columns[each])}</th>' for each in kept
    )
    rows = "\n".join(f'<tr role="row">{_row(day, columns, kept)}</tr>' for day in days)
    return (
        '<table role="table" aria-labelledby="days">\n'
        f'<thead role="rowgroup"><tr role="row">{heads}</tr></thead>\n'
        f'<tbody role="rowgroup">\n{rows}\n</tbody>\n</table>'
    )


def _row(day: SeasonDay, columns: tuple[str, ...], kept: tuple[int, ...]) -> str:
    first, *others = kept
    cells = cells_of(day)
    head = f'<th scope="row" role="rowheader" class="event">{escape(cells[first])}</th>'
    return head + "".join(
        f'<td role="cell" class="{_CLASSES[each]}" data-head="{escape(columns[each])}">'
        f"{escape(cells[each])}</td>"
        for each in others
    )
