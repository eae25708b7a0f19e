"""Readings and calls out, as the JSON that scripts rely on, and as one row a walk."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from quarterwalk.call import Call
from quarterwalk.call.figures import plain_number
from quarterwalk.crop import Stage, WeekOdds
from quarterwalk.errors import RefusedInput
from quarterwalk.reading import QuadrantReading, Reading
from quarterwalk.walk import WalkHead

Json = dict[str, Any]

# Chances of weeks are sums over days and years, right to more digits than these.
_CHANCE_DIGITS = 6


def walk_json(head: WalkHead, reading: Reading, *, level: float, call: Call | None = None) -> Json:
    """Give one walk as JSON-able values: its reading and, if there is one, its call.

    Parameters
    ----------
    head : WalkHead
        Field, day and scouts.
    reading : Reading
        What the walk says.
    level : float
        Chance that a range holds the true value. [fraction]
    call : Call or None
        What was decided.

    Returns
    -------
    dict
        What could not be estimated is None, never 0.
    """
    told: Json = {
        "field": head.field,
        "date": head.date.isoformat(),
        "scouts": list(head.scouts),
        "reading": reading_json(reading, level),
    }
    if head.id:
        told["walk"] = head.id
    if call is not None:
        chances = call.chances
        told["reading"] |= {
            "p_over": chances.over,
            "p_under": chances.under,
            "p_treat": chances.treat,
        }
        weeks = list(call.stage.squaring_weeks)
        told["stage"] = {"name": call.stage.name.value, "squaring_weeks": weeks}
        told["crop"] = _crop_json(call.stage)
        told["call"] = call_json(call)
    return told


def _crop_json(stage: Stage) -> Json:
    told: Json = {"bbch": stage.bbch}
    worked = stage.worked_out
    if worked is not None:
        told["first_square"] = [worked.first.isoformat(), worked.last.isoformat()]
        bloom = worked.bloom
        told["first_bloom"] = None if bloom is None else [day.isoformat() for day in bloom]
        told["chances"] = week_odds_json(worked.weeks)
        told["station"] = worked.station or None
        told["distance_km"] = worked.distance_km
        told["disagrees"] = worked.at_odds is not None
    return told


def week_odds_json(odds: WeekOdds) -> Json:
    """Give the chances of the squaring weeks as JSON-able values.

    Parameters
    ----------
    odds : WeekOdds
        Where a crop stands.

    Returns
    -------
    dict
        `weeks` from week 1 on. Rounded, so that the last bits of a sum, which differ from
        one machine to the next, make no other call of the same walk.
    """
    before, blooming, *weeks = (
        round(chance, _CHANCE_DIGITS) for chance in (odds.before, odds.blooming, *odds.weeks)
    )
    return {"before": before, "weeks": weeks, "blooming": blooming}


def reading_json(reading: Reading, level: float) -> Json:
    """Give a reading as JSON-able values.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    level : float
        Chance that a range holds the true value. [fraction]

    Returns
    -------
    dict
        What could not be estimated is None, never 0.
    """
    looked = reading.plants > 0
    insects = reading.per_100_interval(level) or (None, None)
    squares = reading.set_interval(level) or (None, None)
    told: Json = {
        "method": reading.method.value,
        "plants": reading.plants,
        "adults": reading.adults if looked else None,
        "nymphs": reading.nymphs if looked else None,
        "per_100": _number(reading.per_100),
        "per_100_low": insects[0],
        "per_100_high": insects[1],
        "square_plants": reading.square_plants,
        "squares": reading.squares if reading.square_plants else None,
        "squares_healthy": _healthy(reading),
        "blasted_share": _number(reading.blasted_share),
        "square_set": _number(reading.square_set),
        "square_set_low": squares[0],
        "square_set_high": squares[1],
        "set_readable": reading.set_readable,
        "evenness_p": reading.evenness_p,
        "quadrants": [_quadrant_json(quadrant) for quadrant in reading.quadrants],
    }
    if reading.sweeps:
        told["sweeps"] = reading.sweeps
    return told


def _healthy(reading: Reading) -> int | None:
    return sum(q.healthy for q in reading.quadrants) if reading.square_plants else None


def _quadrant_json(quadrant: QuadrantReading) -> Json:
    return {
        "quadrant": quadrant.quadrant.value,
        "plants": quadrant.plants,
        "insects": quadrant.insects if quadrant.plants else None,
        "squares": quadrant.squares if quadrant.square_plants else None,
        "square_set": _number(quadrant.square_set),
    }


def call_json(call: Call) -> Json:
    """Give a call as JSON-able values.

    Parameters
    ----------
    call : Call
        What was decided.

    Returns
    -------
    dict
        Dates as ISO 8601.
    """
    used = call.guideline
    return {
        "verdict": call.verdict.value,
        "sure": None if call.sure is None else call.sure.value,
        "provisional": call.provisional,
        "next_look": None if call.next_look is None else call.next_look.latest.isoformat(),
        "reasons": [{"code": r.code, "text": r.text} for r in call.reasons],
        "cautions": [{"code": c.code, "text": c.text, "source": c.source} for c in call.cautions],
        "host_weeds": call.host_weeds.text,
        "settle": None if call.settle is None else call.settle.text,
        "guideline": {
            "name": used.name,
            "edition": used.edition,
            "hash": used.hash,
            "own": used.own,
            "line": _limit(used.line),
            "floor": _limit(used.floor),
        },
    }


def _number(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _limit(value: Fraction | None) -> int | float | None:
    return None if value is None else plain_number(value)


def refusal_json(refused: RefusedInput) -> Json:
    """Give the problems of a refused input as JSON-able values.

    Parameters
    ----------
    refused : RefusedInput
        What was refused.

    Returns
    -------
    dict
        One object with a list of errors.
    """
    return {
        "errors": [
            {
                "file": problem.file,
                "row": problem.row,
                "column": problem.column,
                "value": problem.value,
                "expected": problem.expected,
                "message": problem.message,
            }
            for problem in refused.problems
        ]
    }


CALL_COLUMNS = (
    "field", "date", "scouts", "plants", "per_100", "per_100_low", "per_100_high",
    "square_set", "square_set_low", "square_set_high", "verdict", "sure", "provisional",
    "next_look", "guideline", "reasons",
)  # fmt: skip
"""Columns of a table of calls, one row a walk."""


def call_rows(walks: Iterable[Json]) -> list[list[str]]:
    """Give calls as rows of text, for a table.

    Parameters
    ----------
    walks : iterable of dict
        As `walk_json` gives them, with calls.

    Returns
    -------
    list of list of str
        In the order of `CALL_COLUMNS`; blank where there is no value.
    """
    return [[_cell(_column(walk, name)) for name in CALL_COLUMNS] for walk in walks]


def _column(walk: Json, name: str) -> Any:
    call = walk["call"]
    if name == "guideline":
        return f"{call['guideline']['name']} {call['guideline']['edition']}"
    if name == "reasons":
        return " ".join(reason["text"] for reason in call["reasons"])
    if name == "scouts":
        return ", ".join(walk["scouts"])
    for part in (walk, walk["reading"], call):
        if name in part:
            return part[name]
    raise KeyError(name)


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.4g}" if isinstance(value, float) else str(value)
