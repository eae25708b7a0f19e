"""A season as plain text: headings and their sentences."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call.explain import Section
from quarterwalk.call.figures import capital
from quarterwalk.report.season_report import SeasonDay, SeasonReport
from quarterwalk.report.season_titles import season_titles
from quarterwalk.words import phrase, spoken_in


def season_sections(report: SeasonReport) -> tuple[Section, ...]:
    """Put a season in the order in which it is told.

    Parameters
    ----------
    report : SeasonReport
        The season.

    Returns
    -------
    tuple of Section
        None of them empty; in the language of the report.
    """
    named = season_titles(report.language)
    with spoken_in(report.language):
        days = tuple(_told(day) for day in report.days)
    sections = (
        Section(named.stands, (report.headline, *report.stands)),
        Section(named.ahead, report.ahead),
        Section(named.doubts, report.doubts),
        Section(named.settle, report.settle),
        Section(named.days, (*days, report.days_note)),
        Section(named.care, report.care),
        Section(named.footing, report.footing),
    )
    return tuple(section for section in sections if section.sentences)


def season_text(report: SeasonReport) -> str:
    """Put a season into plain text.

    Parameters
    ----------
    report : SeasonReport
        The season.

    Returns
    -------
    str
        A line for each sentence, not wrapped.
    """
    head = ", ".join(part for part in (report.field, report.grower, report.about) if part)
    parts = [head]
    for section in season_sections(report):
        parts.append("\n".join((section.title, *section.sentences)))
    return "\n\n".join(parts) + "\n"


def _told(day: SeasonDay) -> str:
    return "; ".join(_pieces(day)) + "."


def _pieces(day: SeasonDay) -> Iterator[str]:
    yield phrase("{event}: {day}", event=capital(day.event), day=day.likely)
    if day.span:
        yield phrase("{days} 8 times in 10", days=day.span)
    yield day.known
    if day.alone:
        yield phrase("by the weather alone {days}", days=day.alone)
    if day.code:
        yield phrase("BBCH {code}", code=day.code)
