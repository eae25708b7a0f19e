"""A card that lacks something, or says something else, is refused."""

from __future__ import annotations

import copy
import json
import pickle
from collections.abc import Iterator
from importlib.resources import files
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from jsonschema import Draft202012Validator

from quarterwalk.card import CardFault, check_card
from quarterwalk.crop import CropDates
from quarterwalk.plan import Stopping
from tests.card.ground import FIRST_SQUARE, content

Step = str | int
WHOLE = content(
    dates=CropDates(FIRST_SQUARE, treated=(FIRST_SQUARE,)),
    zone=ZoneInfo("America/Chicago"),
    stopping=Stopping.EITHER_WAY,
)


def objects(value: Any, path: tuple[Step, ...] = ()) -> Iterator[tuple[Step, ...]]:
    """Give the way to one object of each kind: of a list the first will do."""
    if isinstance(value, dict):
        yield path
        for key, inside in value.items():
            yield from objects(inside, (*path, key))
    elif isinstance(value, list) and value:
        yield from objects(value[0], (*path, 0))


def at(card: Any, path: tuple[Step, ...]) -> Any:
    for step in path:
        card = card[step]
    return card


PLACES = list(objects(WHOLE))
KEYS = [(path, key) for path in PLACES for key in at(WHOLE, path)]
MAY_LACK = {"sun", "plans"}
NEEDED = [(path, key) for path, key in KEYS if path or key not in MAY_LACK]


def name_of(value: object) -> str:
    return ".".join(map(str, value)) if isinstance(value, tuple) else str(value)


def test_the_schema_is_one() -> None:
    schema = json.loads((files("quarterwalk.card") / "schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize(("path", "key"), NEEDED, ids=name_of)
def test_a_card_with_a_missing_key_is_refused(path: tuple[Step, ...], key: str) -> None:
    card = copy.deepcopy(WHOLE)
    del at(card, path)[key]
    with pytest.raises(CardFault):
        check_card(card)


@pytest.mark.parametrize(("path", "key"), KEYS, ids=name_of)
def test_a_card_with_a_value_of_another_kind_is_refused(path: tuple[Step, ...], key: str) -> None:
    card = copy.deepcopy(WHOLE)
    at(card, path)[key] = {"value": 1} if isinstance(at(card, path)[key], list) else [["1"]]
    with pytest.raises(CardFault):
        check_card(card)


@pytest.mark.parametrize("path", PLACES, ids=name_of)
def test_a_card_with_an_unknown_key_is_refused(path: tuple[Step, ...]) -> None:
    card = copy.deepcopy(WHOLE)
    at(card, path)["made_at"] = "2026-07-01"
    with pytest.raises(CardFault, match="made_at"):
        check_card(card)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("v",), 2),
        (("on",), "1 July"),
        (("stops", 0, "stop"), "1"),
        (("stops", 0, "place", 0), "west"),
        (("limits", "insects", 0, "rows", 100, 2), "25"),
        (("limits", "squares", 0, "rows", 300), [31]),
        (("limits", "verdicts", "over", "under"), "spray"),
        (("weeks", 0, "line"), 0),
        (("closed_until",), "2026-07-01T07:00:00"),
        (("sketch", "svg"), "<script>"),
        (("sun", "offset"), 24 * 60),
        (("sun", "sunset"), 1440),
        (("sun", "overhead"), [741]),
        (("sun", "rows", 0), [401, 61, 1, 0]),
        (("sun", "rows", 0, 1), 360),
        (("sun", "rows", 0, 2), 8),
        (("sun", "rows", 0, 3), 2),
        (("sun", "texts", "facing"), "Face the sun."),
        (("plans", 0, "hash"), "a6a23058"),
        (("plans", 0, "week"), 0),
        (("plans", 0, "bar"), "flared"),
        (("plans", 0, "looks"), []),
        (("plans", 0, "looks", 0, "rows"), []),
        (("plans", 0, "looks", 0, "rows", 0), [40, 4, 6, 13, 14]),
        (("plans", 0, "looks", 0, "rows", 0, 1), -2),
        (("plans", 0, "looks", 0, "rows", 0, 1), None),
        (("plans", 0, "looks", 0, "rows", 0, 4), -1),
        (("plans", 0, "looks", 0, "more", 0), [60]),
        (("plans", 0, "looks", 0, "more", 0, 1), 31.5),
    ],
    ids=name_of,
)
def test_a_card_with_a_value_that_cannot_be_is_refused(path: tuple[Step, ...], value: Any) -> None:
    card = copy.deepcopy(WHOLE)
    at(card, path[:-1])[path[-1]] = value
    with pytest.raises(CardFault):
        check_card(card)


@pytest.mark.parametrize("key", sorted(MAY_LACK))
def test_a_card_without_the_sun_or_without_stop_plans_fits(key: str) -> None:
    check_card({told: value for told, value in WHOLE.items() if told != key})


def test_a_card_without_any_stop_plan_fits() -> None:
    check_card({**WHOLE, "plans": []})


def test_a_table_that_stops_short_is_refused() -> None:
    for table in (("limits", "insects", 0, "rows"), ("limits", "squares", 0, "rows")):
        card = copy.deepcopy(WHOLE)
        at(card, table).pop()
        with pytest.raises(CardFault):
            check_card(card)


def test_a_fault_says_where_it_is_and_survives_pickling() -> None:
    card = copy.deepcopy(WHOLE)
    card["field"]["acres"] = "eighty"
    with pytest.raises(CardFault) as caught:
        check_card(card)
    assert "$.field.acres" in str(caught.value)
    assert str(pickle.loads(pickle.dumps(caught.value))) == str(caught.value)
