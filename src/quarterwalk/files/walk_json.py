"""Walks as JSON text and back, without loss."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.cells import day, name, note, required, word
from quarterwalk.files.coded import Misread
from quarterwalk.walk import (
    COUNTS,
    InsectCount,
    Method,
    PlantCheck,
    Quadrant,
    RecordError,
    Sites,
    SquareCount,
    Walk,
    WalkTable,
)

Made = TypeVar("Made")
Value = TypeVar("Value")

INSECTS, SQUARES = COUNTS[:2], COUNTS[2:]
WALK_KEYS = {"field", "date", "id", "method", "sites", "plan", "plants"}
PLANT_KEYS = {"quadrant", "stop", "plant", *COUNTS, "sweeps", "scout", "date", "skipped", "note"}


def walks_to_json(table: WalkTable) -> str:
    """Write walks as JSON; what was not looked at or not given is left out.

    Parameters
    ----------
    table : WalkTable
        The walks.

    Returns
    -------
    str
        One object with a list of walks, each with its plants.
    """
    return json.dumps({"walks": [_walk_to(walk) for walk in table]}, ensure_ascii=False)


def _walk_to(walk: Walk) -> dict[str, Any]:
    return {
        "field": walk.field,
        "date": walk.date.isoformat(),
        "id": walk.id,
        "method": walk.method.value,
        "sites": walk.sites.value,
        "plan": walk.plan,
        "plants": [_plant_to(check) for check in walk.checks],
    }


def _plant_to(check: PlantCheck) -> dict[str, Any]:
    given: dict[str, Any] = {
        "quadrant": check.quadrant.value,
        "stop": check.stop,
        "plant": check.plant,
        **{key: getattr(check.insects, key, None) for key in INSECTS},
        **{key: getattr(check.squares, key, None) for key in SQUARES},
        "sweeps": check.sweeps,
        "scout": check.scout or None,
        "date": check.on.isoformat() if check.on else None,
        "skipped": check.skipped or None,
        "note": check.note or None,
    }
    return {key: value for key, value in given.items() if value is not None}


def walks_from_json(text: str, file: str = "walks.json") -> WalkTable:
    """Read walks out of JSON as `walks_to_json` writes it.

    Parameters
    ----------
    text : str
        The JSON.
    file : str
        What errors call it.

    Returns
    -------
    WalkTable
        The walks as they were before they became JSON.

    Raises
    ------
    RefusedInput
        If it is not JSON, or not of walks that can be; it names the first fault.
    """
    try:
        walks = _object(json.loads(text), "", {"walks"}).get("walks")
        found = [_walk_from(w, f"walks[{i}]") for i, w in enumerate(_list(walks, "walks"), 1)]
    except _Fault as fault:
        problem = Problem(file, None, fault.where or None, str(fault.value), fault.expected)
    except (ValueError, RecursionError) as error:  # a whole number too long is a ValueError too
        problem = Problem(file, None, None, str(error), "JSON")
    else:
        return WalkTable.from_walks(found)
    raise RefusedInput([problem])


class _Fault(Exception):
    def __init__(self, where: str, value: object, expected: str) -> None:
        super().__init__(where, value, expected)
        self.where, self.value, self.expected = where, value, expected


def _walk_from(value: Any, where: str) -> Walk:
    given = _object(value, where, WALK_KEYS)
    plants = _list(given.get("plants"), f"{where}.plants")
    checks = tuple(_plant_from(p, f"{where}.plants[{i}]") for i, p in enumerate(plants, 1))
    return _made(
        where,
        Walk,
        field=_text(given, "field", where),
        date=_cell(given, "date", where, required(day, "a date as YYYY-MM-DD")),
        checks=checks,
        id=_text(given, "id", where),
        method=_cell(given, "method", where, word(Method)) or Method.TERMINAL,
        sites=_cell(given, "sites", where, word(Sites)) or Sites.ALL,
        plan=_text(given, "plan", where),
    )


def _plant_from(value: Any, where: str) -> PlantCheck:
    given = _object(value, where, PLANT_KEYS)
    return _made(
        where,
        PlantCheck,
        quadrant=_cell(given, "quadrant", where, required(word(Quadrant), "NW, NE, SW or SE")),
        plant=given.get("plant"),
        stop=given.get("stop"),
        insects=_counts(given, INSECTS, where, InsectCount),
        squares=_counts(given, SQUARES, where, SquareCount),
        sweeps=given.get("sweeps"),
        scout=_text(given, "scout", where),
        on=_cell(given, "date", where, day),
        skipped=_flag(given, "skipped", where),
        note=_text(given, "note", where),
    )


def _counts(
    given: Mapping[str, Any], keys: Sequence[str], where: str, kind: type[Made]
) -> Made | None:
    """Make the count of what was looked at; None where none of its keys is there."""
    found = {key: given[key] for key in keys if key in given}
    return _made(where, kind, **found) if found else None


def _made(where: str, kind: type[Made], **values: Any) -> Made:
    try:
        return kind(**values)
    except RecordError as error:
        raise _Fault(f"{where}.{error.what}", error.got, error.expected) from None


def _cell(given: Mapping[str, Any], key: str, where: str, read: Callable[[str], Value]) -> Value:
    """Read a text as a cell of a table is read."""
    value = given.get(key, "")
    if not isinstance(value, str):
        raise _Fault(f"{where}.{key}", value, "a text")
    try:
        return read(value)
    except Misread as fault:
        raise _Fault(f"{where}.{key}", value, fault.expected) from None


def _text(given: Mapping[str, Any], key: str, where: str) -> str:
    return _cell(given, key, where, note if key == "note" else name)


def _flag(given: Mapping[str, Any], key: str, where: str) -> bool:
    value = given.get(key, False)
    if not isinstance(value, bool):
        raise _Fault(f"{where}.{key}", value, "true or false")
    return value


def _object(value: Any, where: str, known: set[str]) -> Mapping[str, Any]:
    if not isinstance(value, dict) or not value.keys() <= known:
        raise _Fault(where, value, f"an object of {', '.join(sorted(known))}")
    return value


def _list(value: Any, where: str) -> list[Any]:
    if not isinstance(value, list):
        raise _Fault(where, value, "a list")
    return value
