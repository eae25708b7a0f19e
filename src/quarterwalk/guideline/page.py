"""A guideline as a page that a scout reads, as a row on the shelf's list, and as JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from quarterwalk.guideline.rule import Floor, Guideline, Line, SeasonEnd, Source
from quarterwalk.guideline.shelf import guideline_names, load_guideline
from quarterwalk.walk.kinds import Method

PAGE_WIDTH = 80
"""Characters on a line of a printed page, that of a plain terminal. [count]"""

LABEL = "The product's label and local rules come before anything on this page."

COUNTED = {
    Method.TERMINAL: "terminals",
    Method.WHOLE_PLANT: "plants",
    Method.BUCKET: "plants",
    Method.SWEEP: "sweeps",
}

WAYS = {
    Method.TERMINAL: "terminal check: the top of the plant is searched",
    Method.WHOLE_PLANT: "whole plant: all of the plant is searched",
    Method.BUCKET: "beat bucket: the plant is beaten into a bucket",
    Method.SWEEP: "sweep net: the sweeps are counted, not the plants",
}

SEASONS = {
    SeasonEnd.WEEK_3: "after squaring week 3, or at first bloom if that is sooner",
    SeasonEnd.FIRST_BLOOM: "at first bloom",
    SeasonEnd.WEEK_AFTER_BLOOM: "7 days after first bloom",
}

SHORT_SEASONS = {
    SeasonEnd.WEEK_3: "weeks 1-3, to first bloom",
    SeasonEnd.FIRST_BLOOM: "to first bloom",
    SeasonEnd.WEEK_AFTER_BLOOM: "to 7 days after first bloom",
}


def guideline_page(guideline: Guideline, *, width: int = PAGE_WIDTH) -> str:
    """Print a guideline for reading: what it asks, when, and where each number is from.

    Parameters
    ----------
    guideline : Guideline
        The rule to print. [guideline]
    width : int
        Longest line; text is wrapped to it. [characters]

    Returns
    -------
    str
        Lines of plain text; numbers in brackets lead to the sources at the end.
    """
    refs = _Refs(guideline)
    head = guideline.title + (" (your own file)" if guideline.own else "")
    lines = [*textwrap.wrap(head, width), "=" * min(len(head), width), ""]
    for label, text in _facts(guideline, refs):
        lines += _hung(f"{label:<10}", text, width)
    if guideline.notes:
        lines += ["", "Notes"]
        for said in guideline.notes:
            lines += _hung("  - ", f"{said.text} {refs.mark(said.source)}", width)
    lines += ["", "Sources"]
    for number, source in enumerate(guideline.sources, 1):
        note = f" {source.note}" if source.note else ""
        lines += _hung(f"  [{number}] ", f"{source.citation}.{note}", width)
    return "\n".join([*lines, "", *textwrap.wrap(LABEL, width)])


def shelf_page() -> str:
    """List the packaged guidelines, a line each, so that the region can be chosen.

    Returns
    -------
    str
        An aligned table; none of its rows is a default.
    """
    rows = [("name", "line per 100", "squares", "season")]
    for name in guideline_names():
        rule = load_guideline(name)
        line = ", ".join(_brief(part) for part in rule.lines)
        rows.append((name, line, _squares_brief(rule), SHORT_SEASONS[rule.season_end]))
    wide = [max(len(row[place]) for row in rows) for place in range(3)]
    return "\n".join(
        "  ".join([*(cell.ljust(w) for cell, w in zip(row, wide, strict=False)), row[3]])
        for row in rows
    )


def guideline_json(guideline: Guideline) -> dict[str, Any]:
    """Give a guideline as plain values for JSON, each number with its source.

    Parameters
    ----------
    guideline : Guideline
        The rule. [guideline]

    Returns
    -------
    dict
        Text, numbers and lists only; shares as fractions from 0 to 1.
    """
    return {
        "name": guideline.name,
        "edition": guideline.edition,
        "hash": guideline.hash,
        "own": guideline.own,
        "title": guideline.title,
        "region": guideline.region,
        "method": guideline.method.value,
        "season": {
            "from": "first-square",
            "to": guideline.season_end.value,
            "source": guideline.season_source.key,
        },
        "lines": [_line_json(line) for line in guideline.lines],
        "floors": [_floor_json(floor) for floor in guideline.floors],
        "blasted": guideline.blasted
        and {
            "at_least": _plain(guideline.blasted.at_least),
            "well_over": _plain(guideline.blasted.well_over),
            "source": guideline.blasted.source.key,
        },
        "half_line": guideline.half_line
        and {
            "at_or_below": _plain(guideline.half_line.at_or_below),
            "source": guideline.half_line.source.key,
        },
        "notes": [{"text": n.text, "source": n.source.key} for n in guideline.notes],
        "sources": [_source_json(source) for source in guideline.sources],
    }


class _Refs:
    """The number of each source on the page."""

    def __init__(self, guideline: Guideline) -> None:
        self.numbers = {source.key: n for n, source in enumerate(guideline.sources, 1)}

    def mark(self, source: Source) -> str:
        return f"[{self.numbers[source.key]}]"


def _facts(guideline: Guideline, refs: _Refs) -> Iterator[tuple[str, str]]:
    edition = f"edition {guideline.edition}, content {guideline.short_hash}"
    yield "Name", f"{guideline.name}, {edition}"
    yield "Region", guideline.region
    yield "Method", WAYS[guideline.method]
    end = SEASONS[guideline.season_end]
    yield "Season", f"begins at first square, ends {end} {refs.mark(guideline.season_source)}"
    for place, line in enumerate(guideline.lines):
        label = "" if place else "Line"
        yield label, f"{_line_words(line, guideline.method)} {refs.mark(line.source)}"
    yield "Squares", _squares_words(guideline, refs)
    for floor in guideline.floors:
        when = _weeks(floor.weeks) + (" and later" if floor.and_later else "")
        yield "", f"{when}: below {_percent(floor.floor)} {refs.mark(floor.source)}"


def _squares_words(guideline: Guideline, refs: _Refs) -> str:
    if guideline.floors:
        return "treating takes both: insects at the line, and square set below the week's floor"
    if guideline.blasted is not None:
        share, over = guideline.blasted.at_least, guideline.blasted.well_over
        return (
            "treating takes both: insects at the line, and"
            f" {_percent(share)} or more of the squares blasted"
            f" (well over: above {_percent(over)}) {refs.mark(guideline.blasted.source)}"
        )
    if guideline.half_line is not None:
        at = _percent(guideline.half_line.at_or_below)
        mark = refs.mark(guideline.half_line.source)
        return f"the line is halved where square set is {at} or lower {mark}"
    return "not part of the rule: insects alone decide"


def _squares_brief(guideline: Guideline) -> str:
    if guideline.floors:
        return "below " + ", ".join(_percent(f.floor) for f in guideline.floors)
    if guideline.blasted is not None:
        return f"blasted {_percent(guideline.blasted.at_least)} or more"
    if guideline.half_line is not None:
        return f"half the line at {_percent(guideline.half_line.at_or_below)}"
    return "-"


def _line_words(line: Line, method: Method) -> str:
    text = f"{_number(line.low)} insects per 100 {COUNTED[method]}, adults and nymphs together"
    if line.high != line.low:
        text += f" (published range {_number(line.low)} to {_number(line.high)})"
    return f"{_weeks(line.weeks)}: {text}" if line.weeks else text


def _brief(line: Line) -> str:
    text = _number(line.low)
    if line.high != line.low:
        text += f" ({_number(line.low)}-{_number(line.high)})"
    return f"{text} in {_weeks(line.weeks)}" if line.weeks else text


def _weeks(weeks: Sequence[int]) -> str:
    if len(weeks) == 1:
        return f"week {weeks[0]}"
    return f"weeks {weeks[0]}-{weeks[-1]}"


def _hung(mark: str, text: str, width: int) -> list[str]:
    """Wrap text after a mark, further lines set in under the first."""
    indent = " " * len(mark)
    return textwrap.wrap(text, width, initial_indent=mark, subsequent_indent=indent)


def _plain(number: Fraction) -> int | float:
    return number.numerator if number.denominator == 1 else float(number)


def _number(number: Fraction) -> str:
    return f"{(Decimal(number.numerator) / number.denominator).normalize():f}"


def _percent(share: Fraction) -> str:
    return f"{_number(100 * share)} %"


def _line_json(line: Line) -> dict[str, Any]:
    ends = {"low": _plain(line.low), "high": _plain(line.high)}
    return {"weeks": list(line.weeks), **ends, "source": line.source.key}


def _floor_json(floor: Floor) -> dict[str, Any]:
    return {
        "weeks": list(floor.weeks),
        "and_later": floor.and_later,
        "floor": _plain(floor.floor),
        "source": floor.source.key,
    }


def _source_json(source: Source) -> dict[str, Any]:
    return {
        "key": source.key,
        "title": source.title,
        "number": source.number or None,
        "place": source.place or None,
        "year": source.year,
        "kind": source.kind.value,
        "note": source.note or None,
    }
