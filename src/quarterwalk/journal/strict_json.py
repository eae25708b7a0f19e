"""JSON read strictly: UTF-8, one object, no key twice, no number beyond what an entry holds."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from quarterwalk.errors import shown
from quarterwalk.journal.fault import EntryFault, FaultCode
from quarterwalk.journal.form import Content
from quarterwalk.journal.ids import DEVICE_LENGTH, HIGHEST_SEQ, Key, is_id

MOST_DIGITS = 15
"""A longer number is not a whole number that every reader holds exactly. [digits]"""


def read_object(line: bytes) -> tuple[Content, str | None]:
    """Read one line as a JSON object.

    Parameters
    ----------
    line : bytes
        The line, without its end. [UTF-8]

    Returns
    -------
    content : mapping
        What it holds; a key that stood twice is left out.
    twice : str or None
        The first key that stood twice in one object.

    Raises
    ------
    EntryFault
        Where it is not UTF-8, not JSON, or not one object.
    """
    twice: list[str] = []

    def pairs(found: list[tuple[str, Any]]) -> dict[str, Any]:
        again = _again(key for key, _ in found)
        twice.extend(again)
        return {key: value for key, value in found if key not in again}

    try:
        content = json.loads(
            line.decode("utf-8"),
            object_pairs_hook=pairs,
            parse_int=_whole,
            parse_constant=_refuse_word,
        )
    except UnicodeDecodeError:
        raise EntryFault(FaultCode.NOT_JSON, "the line is not UTF-8 text.") from None
    except RecursionError:
        raise EntryFault(FaultCode.SCHEMA, "brackets stand too deep in one another.") from None
    except ValueError as error:
        why = f"the line is not JSON: {shown(str(error), most=120)}."
        raise EntryFault(FaultCode.NOT_JSON, why) from None
    if not isinstance(content, dict):
        raise EntryFault(FaultCode.SCHEMA, "the line is JSON, but not an object.")
    return content, twice[0] if twice else None


def key_in(content: Content) -> Key | None:
    """Give the key of an entry, whatever else may be wrong with it.

    Parameters
    ----------
    content : mapping
        What `read_object` gave. [JSON object]

    Returns
    -------
    Key or None
        None where device or number are not what they can be.
    """
    device, seq = content.get("device"), content.get("seq")
    if not isinstance(device, str) or not is_id(device, DEVICE_LENGTH):
        return None
    if type(seq) is not int or not 1 <= seq <= HIGHEST_SEQ:
        return None
    return Key(device, seq)


def _again(keys: Iterable[str]) -> list[str]:
    seen: set[str] = set()
    return [key for key in keys if key in seen or seen.add(key)]  # type: ignore[func-returns-value]


def _whole(text: str) -> int | float:
    """Keep a number of very many digits as one that is not whole, so that it is refused."""
    return int(text) if len(text) <= MOST_DIGITS else float(text)


def _refuse_word(word: str) -> None:
    raise ValueError(f"{word} is no number")
