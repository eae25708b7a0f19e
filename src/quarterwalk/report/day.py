"""The reports of a day on one page, the most urgent first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from quarterwalk.call import Verdict
from quarterwalk.call.figures import day_words
from quarterwalk.call.verdict import verdict_words
from quarterwalk.picture import Theme, verdict_mark
from quarterwalk.report.html import policy, styles, template
from quarterwalk.report.report import Report
from quarterwalk.report.titles import titles
from quarterwalk.words import phrase, phrase_as, phrase_for, spoken_in

_URGENCY = (Verdict.TREAT, Verdict.LOOK_SOONER, Verdict.NONE, Verdict.HOLD)


@dataclass(frozen=True, slots=True)
class Linked:
    """A report and where its page and its PDF lie, as links; an empty one is left out."""

    report: Report
    page: str = ""
    pdf: str = ""


def day_page(reports: Sequence[Linked], *, language: str = "en") -> str:
    """List the reports of a day, the most urgent first.

    Parameters
    ----------
    reports : sequence of Linked
        In any order.
    language : str
        What the page is worded in.

    Returns
    -------
    str
        HTML without script, its styles in one place.
    """
    css = styles("base.css", "day.css")
    ordered = sorted(reports, key=lambda linked: urgency(linked.report))
    with spoken_in(language):
        days = [linked.report.on for linked in ordered]
        dated = len(set(days)) > 1
        listed = "\n".join(_item(each, i, dated=dated) for i, each in enumerate(ordered))
        return template("day.html").substitute(
            language=escape(language),
            policy=escape(policy(css)),
            title=escape(reports_title(days)),
            style=css,
            counts=escape(_counts(ordered)),
            reports=f"<ol>\n{listed}\n</ol>" if listed else "",
        )


def urgency(report: Report) -> tuple[int, date, str]:
    """Give what reports are put in order by, the most urgent first.

    Parameters
    ----------
    report : Report
        The report.

    Returns
    -------
    (int, date, str)
        The verdict's place, the last good day of the next look, the field.
    """
    look = report.call.next_look
    due = date.max if look is None else look.latest
    return _URGENCY.index(report.verdict), due, report.field


def reports_title(days: Sequence[date]) -> str:
    """Say of which days some reports are, in the language spoken.

    Parameters
    ----------
    days : sequence of date
        The day of each, in any order.

    Returns
    -------
    str
    """
    if not days:
        return phrase("Reports")
    first, last = min(days), max(days)
    if first == last:
        return phrase("Reports of {day}", day=_day(first))
    begun = day_words(first) if first.year == last.year else _day(first)
    return phrase("Reports of {first} to {last}", first=begun, last=_day(last))


def _day(day: date) -> str:
    return phrase_as("date", "{day} {year}", day=day_words(day), year=day.year)


def _counts(ordered: Sequence[Linked]) -> str:
    if not ordered:
        return phrase("No walk was made.")
    counts = Counter(linked.report.verdict for linked in ordered)
    told = ", ".join(f"{verdict_words(v)} {counts[v]}" for v in _URGENCY if counts[v])
    walks = phrase_for(len(ordered), "{count} walk", "{count} walks")
    return f"{walks}: {told}"


def _item(linked: Linked, index: int, *, dated: bool) -> str:
    report = linked.report
    mark = verdict_mark(
        report.verdict, theme=Theme.SCREEN, id=f"mark-{index}", language=report.language
    )
    name = f"<bdi>{escape(report.field)}</bdi>"
    if linked.page:
        name = f'<a href="{escape(linked.page)}">{name}</a>'
    parts = [
        f"<h2>{name}</h2>",
        f'<p class="verdict">{mark}<span>{_verdict(report)}</span></p>',
        *_whose(report, dated=dated),
        f'<p class="said">{escape(report.headline)}</p>',
        f'<p class="again">{escape(" ".join(report.next_look))}</p>',
        *_links(linked),
    ]
    return f'<li lang="{escape(report.language)}">\n' + "\n".join(parts) + "\n</li>"


def _verdict(report: Report) -> str:
    word = escape(report.verdict_words)
    if not report.call.provisional:
        return word
    with spoken_in(report.language):
        doubt = phrase_as("a call", "provisional")
    return f"{word} <small>{escape(doubt)}</small>"


def _whose(report: Report, *, dated: bool) -> Iterator[str]:
    grower = titles(report.language).grower.format(grower=report.grower) if report.grower else ""
    told = ", ".join(part for part in (grower, report.about if dated else report.acres) if part)
    if told:
        yield f'<p class="whose"><bdi>{escape(told)}</bdi></p>'


def _links(linked: Linked) -> Iterator[str]:
    with spoken_in(linked.report.language):
        ways = [
            (linked.page, phrase_as("a link to a report", "Page")),
            (linked.pdf, phrase_as("a link to a report", "To print (PDF)")),
        ]
    # which field a link leads to must be heard too, where links are heard one by one
    links = [
        f'<a href="{escape(to)}" aria-label="{escape(f"{said}: {linked.report.field}")}">'
        f"{escape(said)}</a>"
        for to, said in ways
        if to
    ]
    if links:
        yield f'<p class="links">{"".join(links)}</p>'
