"""Where each reason of a call comes from, briefly enough to stand beside it."""

from __future__ import annotations

from quarterwalk.call import Reason
from quarterwalk.crop import load_needs
from quarterwalk.guideline import Guideline, Source, SourceKind, load_routine

_LINE = frozenset({
    "insects-over", "insects-near", "insects-middle", "insects-few", "insects-alone",
    "line-chosen", "line-full", "within-range", "no-line-for-method",
})  # fmt: skip
_SEASON = frozenset({"before-squaring", "season-over", "season-edge"})
_SQUARES = frozenset({
    "set-not-under", "set-under", "set-well-under", "blasted-over", "blasted-not-over",
    "both-past", "insects-only", "squares-only", "squares-needed", "weeks-agree", "weeks-differ",
})  # fmt: skip

# Which number of the routine a reason rests on.
_ROUTINE = {
    "finish-walk": "least_plants",
    "few-plants": "few_plants",
    "unknown-plan": "few_plants",
    "plan-not-kept": "few_plants",
    "thin-quadrant": "least_per_quadrant",
    "few-squares": "readable_sites",
    "set-not-readable": "readable_sites",
    "recently-treated": "recently_treated",
    "bloom-date": "ask_bloom_after",
    "other-causes": "low_line",
}

_OWN_RULE = "this project's own rule"

# Which number of the crop's clock a reason rests on.
_CLOCK = {"look-for-bloom": "look_for_bloom_after", "settle-week": "branch_days"}


def source_words(reason: Reason, rule: Guideline | None) -> str:
    """Say where a reason comes from.

    Parameters
    ----------
    reason : Reason
        From a call.
    rule : Guideline or None
        The one that the call was made by, where it is still on the shelf.

    Returns
    -------
    str
        The document of the number, or what was counted; empty where nothing is to be said.
    """
    code = reason.code
    if code == "losses":
        return "as counted on the walk"
    if code == "uneven":
        return "compared between the quarters"
    if code == "ended-by-plan":
        return _OWN_RULE
    if code in _ROUTINE:
        return _cited(load_routine().rule_for(_ROUTINE[code]).source)
    if code in _CLOCK:
        return _cited(load_needs().growth[_CLOCK[code]].source)
    if code == "first-square-worked-out":
        return "heat units since planting, and what was seen"
    source = None if rule is None else _of_rule(code, rule)
    return "" if source is None else _cited(source)


def _of_rule(code: str, rule: Guideline) -> Source | None:
    if code in _LINE:
        return rule.lines[0].source
    if code in _SEASON:
        return rule.season_source
    if code == "line-halved" and rule.half_line is not None:
        return rule.half_line.source
    if code in _SQUARES:
        if rule.blasted is not None:
            return rule.blasted.source
        return rule.floors[0].source if rule.floors else rule.lines[0].source
    return None


def _cited(source: Source) -> str:
    if source.kind is SourceKind.COMMON_PRACTICE:
        return "common practice"
    if source.kind is SourceKind.OWN_RULE:
        return _OWN_RULE
    return source.citation
