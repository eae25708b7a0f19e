"""A report as one web page that needs nothing beside it."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from quarterwalk.picture import Theme
from quarterwalk.report.html import policy, section, styles, template
from quarterwalk.report.pictures import outcomes_picture, pinch_picture, where_picture
from quarterwalk.report.report import Report
from quarterwalk.report.titles import Titles, titles

# A telephone's width less the margins; the widest that lines are still easy to read; a
# sheet's, drawn wide so that it is set low. [px]
_NARROW, _WIDE, _PAPER = 328, 752, 1000
_WHERE = (350, 280)
# On a sheet it is as wide as a column, and so low that the longest report fits. [px]
_WHERE_PAPER = (400, 190)

# From so many characters on, a sheet takes smaller type to hold them. [characters]
_LENGTHS = ((1300, "longest"), (850, "long"), (0, "usual"))
# How many more the quarters one by one take than the field's shape does. [characters]
_QUARTERS = 200


def page(report: Report) -> str:
    """Show a report as one self-contained web page.

    Parameters
    ----------
    report : Report
        The report.

    Returns
    -------
    str
        HTML without script, its styles in one place; it prints on one sheet.
    """
    css, named, screen = styles("base.css", "report.css"), titles(report.language), Theme.SCREEN
    plain = {
        "language": report.language,
        "policy": policy(css),
        "title": f"{report.field}: {report.verdict_words}, {report.day}",
        "field": report.field,
        "headline": report.headline,
        "where_title": named.where,
        "manner": _manner(report),
        "length": _length(report),
    }
    return template("report.html").substitute(
        {name: escape(text) for name, text in plain.items()},
        style=css,
        about=_about(report, named),
        outcomes_narrow=outcomes_picture(report, screen, _NARROW, "outcomes-narrow"),
        outcomes_wide=outcomes_picture(report, screen, _WIDE, "outcomes-wide"),
        outcomes_paper=outcomes_picture(report, screen, _PAPER, "outcomes-paper"),
        pinch_narrow=pinch_picture(report, screen, _NARROW, "pinch-narrow"),
        pinch_wide=pinch_picture(report, screen, _WIDE, "pinch-wide"),
        pinch_paper=pinch_picture(report, screen, _PAPER, "pinch-paper"),
        reasons=section(named.why, report.reasons, cls="why", tag="li"),
        found_note=f"<p>{escape(report.found_note)}</p>\n" if report.found_note else "",
        where=where_picture(report, screen, _WHERE, "where"),
        where_paper=where_picture(report, screen, _WHERE_PAPER, "where-paper"),
        sure=section(named.sure, report.sure, cls="sure"),
        again=section(named.next_look, (*report.next_look, report.host_weeds), cls="next"),
        care=section(named.care, report.care, cls="care", tag="li"),
        foot="\n".join(_foot(report)),
    )


def _about(report: Report, named: Titles) -> str:
    """Say for whom, when and how large; the grower's name stands out."""
    lines = []
    if report.grower:
        name = f"<b><bdi>{escape(report.grower)}</bdi></b>"
        lines.append(escape(named.grower).format(grower=name))
    lines.append(escape(report.about))
    return "\n".join(f"<span>{line}</span>" for line in lines)


def _manner(report: Report) -> str:
    """Name what the style sheet must know: which parts there are."""
    parts = ["told"]
    if report.care:
        parts.append("with-care")
    if not report.sure:
        parts.append("no-sure")
    return " ".join(parts)


def _length(report: Report) -> str:
    """Say how much a sheet of paper must hold."""
    told = (*report.reasons, *report.sure, *report.next_look, report.host_weeds, *report.care)
    signs = sum(map(len, told)) + (_QUARTERS if report.layout is None else 0)
    return next(name for least, name in _LENGTHS if signs >= least)


def _foot(report: Report) -> Iterator[str]:
    yield f'<p class="ask"><bdi>{escape(report.ask)}</bdi></p>'
    for paragraph in report.footing.paragraphs:
        yield f"<p>{escape(paragraph)}</p>"
