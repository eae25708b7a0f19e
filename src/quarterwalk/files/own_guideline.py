"""A user's own guideline file: read, checked, and every fault named by its line."""

from __future__ import annotations

import difflib
import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, NoReturn

from quarterwalk.errors import MOST_PROBLEMS, Problem, RefusedInput, shown
from quarterwalk.guideline.content import guideline_from, parsed
from quarterwalk.guideline.faults import Fault, rule_faults
from quarterwalk.guideline.locate import Path, lines_of, nearest_line
from quarterwalk.guideline.rule import Guideline

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError
    from jsonschema.protocols import Validator

LARGEST = 100_000
"""The largest guideline file that is read; the packaged ones have under 3,000. [bytes]"""

LONGEST_LINE = 2_000
"""The longest line; words have at most 500 characters. Endless dotted keys on one line
would take the standard reader hours. [characters]"""

MOST_DECIMALS = 9
"""Decimals of a number in a guideline; more cannot be meant. [count]"""

AT_LINE = re.compile(r" ?\(at (?:line (\d+), column \d+|end of document)\)")
MANY_DIGITS = re.compile(r"[0-9_]{1000}")
DEEPEST = 10
"""How many keys may lead to a value; the format needs five. [count]"""

TOO_DEEP = f"a file with at most {DEEPEST} keys or brackets one inside the other"


def read_guideline(path: str | FilePath) -> Guideline:
    """Read a guideline of your own, in the format of the packaged ones.

    Parameters
    ----------
    path : str or pathlib.Path
        A TOML file in UTF-8. [file name]

    Returns
    -------
    Guideline
        The rule, with `own` set: its name may equal that of a packaged one.

    Raises
    ------
    RefusedInput
        Where the file cannot be read, is not TOML, does not fit the format or does not
        hang together; each problem names the line and the key.
    """
    name = str(path)
    text = _text(FilePath(path), name)
    try:
        content = parsed(text)
        if _too_deep(content):
            _refuse(name, None, "a deeper one", TOO_DEEP)
        lines = lines_of(text)
    except RecursionError:
        _refuse(name, None, "a deeper one", TOO_DEEP)
    except ValueError as error:  # tomllib's own, and Python's for a whole number too long
        _refuse_syntax(name, text, error)
    faults = list(_schema_faults(content)) or list(rule_faults(content))
    if faults:
        problems = sorted(
            (_problem(name, lines, fault) for fault in faults), key=lambda p: p.row or 0
        )
        raise RefusedInput(problems[:MOST_PROBLEMS], max(0, len(problems) - MOST_PROBLEMS))
    return guideline_from(content, own=True)


def _too_deep(content: object) -> bool:
    """Look one level further down at a time, since the content may be endlessly deep."""
    level = [content]
    for _ in range(DEEPEST + 1):
        level = [
            item
            for value in level
            if isinstance(value, dict | list)
            for item in (value.values() if isinstance(value, dict) else value)
        ]
    return bool(level)


def _text(path: FilePath, name: str) -> str:
    """Take the text of a file that is there, not too large, and UTF-8."""
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character
        why = getattr(error, "strerror", None) or str(error)
        _refuse(name, None, why, "a guideline file that can be read")
    if len(raw) > LARGEST:
        _refuse(name, None, "a larger one", f"a file of at most {LARGEST:,} bytes")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        row = raw.count(b"\n", 0, error.start) + 1
        value = raw[error.start : error.start + 8].decode("latin-1")
        _refuse(name, row, value, "UTF-8 text", "Save the file as UTF-8.")
    for row, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            _refuse(name, row, line, f"a line of at most {LONGEST_LINE:,} characters")
    return text


def _refuse(name: str, row: int | None, value: str, expected: str, hint: str = "") -> NoReturn:
    raise RefusedInput([Problem(name, row, None, value, expected, hint)])


def _refuse_syntax(name: str, text: str, error: ValueError) -> NoReturn:
    """Turn the reader's complaint into a problem at its line."""
    written = text.replace("\r\n", "\n").split("\n")
    if not isinstance(error, tomllib.TOMLDecodeError):
        row = next((n for n, line in enumerate(written, 1) if MANY_DIGITS.search(line)), None)
        _refuse(name, row, "a number of very many digits", "a number that a field can have")
    said = str(error)
    found = AT_LINE.search(said)
    row = int(found[1]) if found and found[1] else len(written)
    hint = AT_LINE.sub("", said).strip()
    _refuse(name, row, written[row - 1].strip(), "TOML", hint + "." if hint else "")


def _problem(name: str, lines: dict[Path, int], fault: Fault) -> Problem:
    return Problem(
        file=name,
        row=nearest_line(lines, fault.path),
        column=_written(fault.path) or None,
        value=_shown(fault.value),
        expected=fault.expected,
        hint=fault.hint,
    )


def _written(path: Path) -> str:
    """Write a path as a reader counts: the first of several tables is [1]."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{shown(step)}"
    return text.removeprefix(".")


def _shown(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list) and any(isinstance(item, Mapping | list) for item in value):
        return "an array"
    return str(value)


def _schema_faults(content: Mapping[str, Any]) -> Iterator[Fault]:
    for error in _validator().iter_errors(content):
        yield from _faults_of(error)


def _faults_of(error: ValidationError) -> Iterator[Fault]:
    path = tuple(error.absolute_path)
    schema: Mapping[str, Any] = error.schema if isinstance(error.schema, Mapping) else {}
    asked: Any = error.validator_value
    found: Any = error.instance
    if error.validator == "required":
        missing = [key for key in asked if key not in found]
        key = next(key for key in missing if f"'{key}'" in error.message)
        yield Fault((*path, key), "", "given", _how_to_give(key))
    elif error.validator == "additionalProperties":
        known = schema["properties"]
        for key in found:
            if key not in known:
                close = difflib.get_close_matches(shown(key), known, n=1)
                hint = f"Closest: {close[0]}." if close else ""
                yield Fault((*path, key), key, f"one of the keys {', '.join(known)}", hint)
    elif "propertyNames" in error.absolute_schema_path:
        yield Fault((*path, found), found, _meant(error, schema))
    else:
        yield Fault(path, found, _meant(error, schema))


def _how_to_give(key: str) -> str:
    if key == "source":
        return 'Add source = "<key>", naming one of the tables [sources.<key>].'
    return f"Add {key}."


def _meant(error: ValidationError, schema: Mapping[str, Any]) -> str:
    """Say in words what the schema accepts here."""
    asked: Any = error.validator_value
    if error.validator == "enum":
        return ("one of " if len(asked) > 1 else "") + ", ".join(str(value) for value in asked)
    if error.validator == "uniqueItems":
        return "weeks that are each named once"
    if "description" in schema:
        return str(schema["description"])
    kinds = {"object": "a table", "array": "a list"}
    return kinds.get(str(schema.get("type")), "what the format allows")


@cache
def _validator() -> Validator:
    """Make the schema's checker; loaded late, since most calls never need it."""
    from jsonschema import Draft202012Validator, validators  # noqa: PLC0415 - start-up time

    exact = Draft202012Validator.TYPE_CHECKER.redefine("number", _is_exact_number).redefine(
        "integer", lambda _, value: isinstance(value, int) and not isinstance(value, bool)
    )
    schema = json.loads((files("quarterwalk.guideline") / "schema.json").read_text("utf-8"))
    checker: Any = validators.extend(Draft202012Validator, type_checker=exact)  # type: ignore[no-untyped-call]
    made: Validator = checker(schema)
    return made


def _is_exact_number(_: object, value: object) -> bool:
    if isinstance(value, Decimal):
        exponent = value.as_tuple().exponent
        return isinstance(exponent, int) and abs(exponent) <= MOST_DECIMALS
    return isinstance(value, int) and not isinstance(value, bool)
