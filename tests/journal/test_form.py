"""The published form, and the quick way in which it is checked."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest
from jsonschema import Draft202012Validator

from quarterwalk.journal import Key, Kind, opening_key, read_entry, walk_id
from quarterwalk.journal.ids import ALPHABET, DEVICE_LENGTH, is_id
from quarterwalk.journal.raised import STEPS, VERSION, raised
from tests.contracts.source import PACKAGE
from tests.journal.made import WENS, content, line

SCHEMA = json.loads((PACKAGE / "journal" / "schema.json").read_text(encoding="utf-8"))


def test_the_published_form_is_a_sound_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert Draft202012Validator(SCHEMA).is_valid(content())


def test_the_published_form_asks_something_of_every_kind() -> None:
    asked = {
        part["if"]["properties"]["kind"]["const"]
        for part in SCHEMA["allOf"]
        if "properties" in part["if"]
    }
    assert asked == set(SCHEMA["properties"]["kind"]["enum"]) == {kind.value for kind in Kind}


def test_every_older_version_can_be_raised() -> None:
    assert set(STEPS) == set(range(1, VERSION))
    assert raised(content()) == content()


@pytest.mark.parametrize("version", [0, 2, -1, "1", None, 1.0, True])
def test_a_version_that_was_never_written_is_not_guessed_at(version: object) -> None:
    with pytest.raises(KeyError):
        raised({**content(), "v": version})


def test_a_walk_is_named_after_the_entry_that_opened_it() -> None:
    assert walk_id(WENS, 397) == "k3f9m2q8t5wz-397"
    assert opening_key("k3f9m2q8t5wz-397") == Key(WENS, 397)


@pytest.mark.parametrize(
    "text",
    ["", WENS, f"{WENS}-0", f"{WENS}-07", f"{WENS}-1\n", f"{WENS}-1234567890", "o" * 12 + "-1"],
)
def test_what_names_no_entry_is_no_walk(text: str) -> None:
    assert opening_key(text) is None


def test_an_id_has_no_letter_that_is_misread() -> None:
    assert len(set(ALPHABET)) == 32
    assert not set(ALPHABET) & set("ilou")
    assert is_id(WENS, DEVICE_LENGTH)
    assert not is_id(WENS.upper(), DEVICE_LENGTH)
    assert not is_id(WENS[:-1], DEVICE_LENGTH)
    assert not is_id(WENS[:-1] + "l", DEVICE_LENGTH)


def test_the_offset_of_an_entry_may_be_z() -> None:
    assert read_entry(line(at="2026-06-18T13:00:00.000Z")).at == datetime(
        2026, 6, 18, 13, tzinfo=UTC
    )
