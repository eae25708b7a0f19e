"""Whether an entry has the published form, `schema.json`, and in words where it has not."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from quarterwalk.errors import shown
from quarterwalk.journal.body import Kind

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError
    from jsonschema.protocols import Validator

Content = Mapping[str, Any]
"""An entry as JSON holds it."""

_KINDS = frozenset(kind.value for kind in Kind)


def misfit(content: Content) -> str | None:
    """Say where an entry departs from the published form.

    Parameters
    ----------
    content : mapping
        The entry, of the newest version. [JSON object]

    Returns
    -------
    str or None
        The first thing that does not fit; None where all fits.
    """
    kind = content.get("kind")
    checker = _checker(kind) if isinstance(kind, str) and kind in _KINDS else _checker(None)
    error = next(checker.iter_errors(content), None)
    return None if error is None else _told(error)


@cache
def _checker(kind: str | None) -> Validator:
    """Make the checker of one kind of entry; without a kind, of the whole published form.

    One kind's own is four times as quick: it asks of no other kind, and follows no
    reference. It is loaded late, since most commands never read a journal.
    """
    from jsonschema import Draft202012Validator, validators  # noqa: PLC0415 - start-up time

    whole = Draft202012Validator.TYPE_CHECKER.redefine("integer", lambda _, n: type(n) is int)
    strict: Any = validators.extend(Draft202012Validator, type_checker=whole)  # type: ignore[no-untyped-call]
    schema = json.loads((files("quarterwalk.journal") / "schema.json").read_text("utf-8"))
    made: Validator = strict(schema if kind is None else _for_kind(schema, kind))
    return made


def _for_kind(schema: dict[str, Any], kind: str) -> Any:
    """Leave of the form what is asked of one kind, each reference replaced by what it means."""
    asked = []
    for part in schema["allOf"]:
        of_kind = part["if"].get("properties", {}).get("kind")
        if of_kind is None:
            asked.append(part)
        elif of_kind["const"] == kind:
            asked.append(part["then"])
    return _spelled({**schema, "allOf": asked, "$defs": {}}, schema["$defs"])


def _spelled(part: Any, meanings: Mapping[str, Any]) -> Any:
    if isinstance(part, list):
        return [_spelled(item, meanings) for item in part]
    if not isinstance(part, dict):
        return part
    if "$ref" in part:
        return _spelled(meanings[part["$ref"].removeprefix("#/$defs/")], meanings)
    return {key: _spelled(item, meanings) for key, item in part.items()}


def _told(error: ValidationError) -> str:
    """Name the place, what may stand there, and what does."""
    place = _place(error)
    asked: Any = error.validator_value
    found: Any = error.instance
    schema: Any = error.schema
    if error.validator == "required":
        lacking = next(key for key in asked if key not in found)
        return f"{_joined(place, lacking)} is not there."
    if error.validator == "additionalProperties":
        key = next(key for key in found if key not in schema["properties"])
        return f"{_joined(place, key)} is no key of this format."
    return f"{place or 'the entry'} must be {_meant(error)}, got {_got(found)}."


def _place(error: ValidationError) -> str:
    text = ""
    for step in error.absolute_path:
        text = f"{text}[{step + 1}]" if isinstance(step, int) else _joined(text, str(step))
    return text


def _joined(place: str, key: str) -> str:
    return f"{place}.{shown(key)}" if place else shown(key)


def _meant(error: ValidationError) -> str:
    asked: Any = error.validator_value
    if error.validator == "enum":
        return "one of " + ", ".join(asked)
    kinds = {"object": "an object", "array": "a list"}
    schema: Any = error.schema
    return str(schema.get("description") or kinds.get(asked, asked))


def _got(value: object) -> str:
    """Show a value; what holds others is only named, since it may be endlessly deep."""
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    return shown(json.dumps(value, ensure_ascii=False))
