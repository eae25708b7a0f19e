"""From the content of a guideline file to a `Guideline`, and the hash of that content."""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import Any

from quarterwalk.guideline.rule import (
    BlastedShare,
    Floor,
    Guideline,
    HalfLine,
    Line,
    Note,
    SeasonEnd,
    Source,
    SourceKind,
)
from quarterwalk.walk.kinds import Method


def parsed(text: str) -> dict[str, Any]:
    """Read TOML with every number kept exactly as written.

    Parameters
    ----------
    text : str
        The text of a guideline file. [TOML]

    Returns
    -------
    dict
        Its content; numbers with a point are `Decimal`, what is not finite stays text.

    Raises
    ------
    tomllib.TOMLDecodeError
        Where the text is not TOML.
    """
    return tomllib.loads(text, parse_float=_exactly)


def content_hash(content: Mapping[str, Any]) -> str:
    """Give the fingerprint of a guideline's content.

    Parameters
    ----------
    content : mapping
        What `parsed` gave. [TOML content]

    Returns
    -------
    str
        SHA-256 over the content with keys sorted and numbers in lowest terms, so that
        comments, spaces, the order of keys and 0.9 for 0.90 do not move it.
        [64 hex digits]
    """
    flat = json.dumps(_canonical(content), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(flat.encode()).hexdigest()


def guideline_from(content: Mapping[str, Any], *, own: bool) -> Guideline:
    """Make a guideline from content that is known to be sound.

    Parameters
    ----------
    content : mapping
        Content that fits the schema and names only sources that it holds. [TOML content]
    own : bool
        Whether it is a user's own file. [yes or no]

    Returns
    -------
    Guideline
        The rule, its numbers exact.
    """
    head = content["guideline"]
    sources = {key: _source(key, table) for key, table in content["sources"].items()}
    return Guideline(
        name=head["name"],
        edition=head["edition"],
        title=head["title"],
        region=head["region"],
        method=Method(head["method"]),
        season_end=SeasonEnd(head["season"]["to"]),
        season_source=sources[head["season"]["source"]],
        lines=tuple(_line(table, sources) for table in content["lines"]),
        floors=tuple(_floor(table, sources) for table in content.get("floors", ())),
        blasted=_blasted(content.get("blasted"), sources),
        half_line=_half_line(content.get("half_line"), sources),
        sources=tuple(sources.values()),
        notes=tuple(Note(n["text"], sources[n["source"]]) for n in content.get("notes", ())),
        hash=content_hash(content),
        own=own,
    )


def _exactly(text: str) -> Decimal | str:
    """Keep what is no finite number as it was written: no NaN can then slip through."""
    try:
        number = Decimal(text)
    except InvalidOperation:  # an exponent beyond what a Decimal holds
        return text
    return number if number.is_finite() else text


def _canonical(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _canonical(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_canonical(item) for item in value]
    if isinstance(value, int | Decimal) and not isinstance(value, bool):
        return {"number": str(Fraction(value))}
    return value


def _source(key: str, table: Mapping[str, Any]) -> Source:
    return Source(
        key=key,
        title=table["title"],
        number=table.get("number", ""),
        place=table.get("place", ""),
        year=table.get("year"),
        kind=SourceKind(table["kind"]),
        note=table.get("note", ""),
    )


def _line(table: Mapping[str, Any], sources: Mapping[str, Source]) -> Line:
    per_100 = table["per_100"]
    low = Fraction(per_100["value"])
    high = Fraction(per_100.get("to", per_100["value"]))
    return Line(tuple(table.get("weeks", ())), low, high, sources[per_100["source"]])


def _floor(table: Mapping[str, Any], sources: Mapping[str, Source]) -> Floor:
    below = table["below"]
    return Floor(
        weeks=tuple(table["weeks"]),
        and_later=table.get("and_later", False),
        floor=Fraction(below["value"]),
        source=sources[below["source"]],
    )


def _blasted(table: Mapping[str, Any] | None, sources: Mapping[str, Source]) -> BlastedShare | None:
    if table is None:
        return None
    at_least, well_over = table["at_least"], table["well_over"]
    return BlastedShare(
        Fraction(at_least["value"]), Fraction(well_over["value"]), sources[at_least["source"]]
    )


def _half_line(table: Mapping[str, Any] | None, sources: Mapping[str, Source]) -> HalfLine | None:
    if table is None:
        return None
    at = table["at_or_below"]
    return HalfLine(Fraction(at["value"]), sources[at["source"]])
