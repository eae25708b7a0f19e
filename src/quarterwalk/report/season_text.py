"""A season as plain text: headings and their sentences."""

from __future__ import annotations

from collections.abc import Iterator

from quarterwalk.call.explain import Section
from quarterwalk.call.figures import capital
from quarterwalk.report.season_report import SeasonDay, SeasonReport
from quarterwalk.report.season_titles import season_titles
from quarterwalk.words import phrase, phrase_as, spoken_in


def season_sections(report: SeasonReport, *, alone: bool = True) -> tuple[Section, ...]:
    """Put a season in the order in which it is told.

    Parameters
    ----------
    report : SeasonReport
        The season.
    alone : bool
        Whether no other season is told beside it; else what it shares with them is left to
        `shared_section`.

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
        Section(named.footing, report.footing if alone else report.footing[:1]),
    )
    return tuple(section for section in sections if section.sentences)


def shared_section(report: SeasonReport) -> Section:
    """Give what all seasons stand on: how heat counts, the needs, their sources.

    Parameters
    ----------
    report : SeasonReport
        Any one of the seasons.

    Returns
    -------
    Section
        In the language of the report.
    """
    with spoken_in(report.language):
        title = phrase_as("heading of a season", "What all these fields stand on")
    return Section(title, report.footing[1:])


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
