"""The call on a walk as its page tells it: with odds to those who judge, in words to growers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.safestring import SafeString

from quarterwalk.call import Call, explain
from quarterwalk.call.clock_told import WEEK_CHANCES
from quarterwalk.call.figures import odds_words
from quarterwalk.field import Layout
from quarterwalk.guideline import Guideline
from quarterwalk.office.pages.drawn import ENGLISH, safe_drawing
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.sources import source_words
from quarterwalk.office.services.calls import LEVEL, Judged
from quarterwalk.picture import Theme, pinch, three_outcomes
from quarterwalk.report import Report, make_report
from quarterwalk.report.footing import shelved

# A telephone's width less the margins, and the width of the page's first column. [px]
_NARROW, _WIDE = 328, 780


@dataclass(frozen=True, slots=True)
class ReasonLine:
    """One reason, with where it comes from."""

    text: str
    source: str


@dataclass(frozen=True, slots=True)
class WalkCall:
    """A call with its drawings and its sentences."""

    verdict: str
    headline: str
    outcomes_wide: SafeString
    outcomes_narrow: SafeString
    pinch_wide: SafeString
    pinch_narrow: SafeString
    reasons: tuple[ReasonLine, ...]
    sure: tuple[str, ...]
    again: tuple[str, ...]
    care: tuple[str, ...]
    standing_on: tuple[str, ...]


def walk_call(judged: Judged, layout: Layout | None, may: May) -> WalkCall | None:
    """Word the call on a walk.

    Parameters
    ----------
    judged : Judged
        The walk with what the core makes of it.
    layout : Layout or None
        The field.
    may : May
        Who reads it.

    Returns
    -------
    WalkCall or None
        None where there is no call.
    """
    call = judged.call
    if call is None:
        return None
    report = make_report(judged.head, judged.reading, call, layout=layout, level=LEVEL)
    rule = shelved(call.guideline)
    return WalkCall(
        verdict=call.verdict.value,
        headline=report.headline,
        outcomes_wide=_outcomes(judged, call, _WIDE, "outcomes-wide"),
        outcomes_narrow=_outcomes(judged, call, _NARROW, "outcomes-narrow"),
        pinch_wide=_pinch(judged, call, _WIDE, "pinch-wide"),
        pinch_narrow=_pinch(judged, call, _NARROW, "pinch-narrow"),
        reasons=tuple(
            ReasonLine(_titled(reason.text, rule), source_words(reason, rule))
            for reason in call.reasons
            if may.odds or reason.code != WEEK_CHANCES
        ),
        sure=_sure(call, report, may),
        again=(*report.next_look, report.host_weeds),
        care=_care(report),
        standing_on=report.footing.paragraphs[:2],
    )


def _titled(text: str, rule: Guideline | None) -> str:
    """Name a rule by its title, as pages do, where a reason names it as its file is called."""
    return text if rule is None else text.replace(rule.name, rule.title)


def _outcomes(judged: Judged, call: Call, width: int, id: str) -> SafeString:
    drawn = three_outcomes(
        call.verdict,
        theme=Theme.SCREEN,
        width=width,
        id=id,
        language=ENGLISH,
        provisional=call.provisional or bool(judged.lacking),
        why=call.reasons[0].code,
    )
    return safe_drawing(drawn)


def _pinch(judged: Judged, call: Call, width: int, id: str) -> SafeString:
    drawn = pinch(
        judged.reading,
        call,
        level=LEVEL,
        theme=Theme.SCREEN,
        width=width,
        id=id,
        language=ENGLISH,
    )
    return safe_drawing(drawn)


def _sure(call: Call, report: Report, may: May) -> tuple[str, ...]:
    """Say how sure it is: odds for scouts and leads, plain words for growers."""
    if not may.odds:
        return report.sure
    told = [section for section in explain(call) if section.title == "How sure"]
    return (*(told[0].sentences if told else ()), *_each(call))


def _each(call: Call) -> Iterator[str]:
    """Give the odds of each measure by itself."""
    over, under = call.chances.over, call.chances.under
    if over is not None:
        yield f"Insects at or past the line: {odds_words(over)}."
    if under is not None:
        yield f"Square set under the floor: {odds_words(under)}."


def _care(report: Report) -> tuple[str, ...]:
    """Give the cautions where the decision is made; what prevails always stands among them."""
    return (*report.care, report.footing.prevails)
