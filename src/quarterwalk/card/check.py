"""Every card is held against its format when it is made."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from quarterwalk.errors import QuarterwalkError, shown

if TYPE_CHECKING:
    from jsonschema.protocols import Validator


MOST_TOLD = 200
"""How much is told of what does not fit. [characters]"""


class CardFault(QuarterwalkError, ValueError):
    """A walk card that does not fit its format: says where, and what does not fit."""

    def __init__(self, where: str, what: str) -> None:
        super().__init__(where, what)
        self.where = where
        self.what = what

    def __str__(self) -> str:
        told = shown(self.what, most=MOST_TOLD)
        return f"walk card, {self.where}: must fit the card's format, got {told}."


def check_card(content: Any) -> None:
    """Refuse a card that does not fit its format.

    Parameters
    ----------
    content : dict
        A card as it was read from its JSON.

    Raises
    ------
    CardFault
        If a key is missing or unknown, or a value is of the wrong kind.
    """
    fault = next(_validator().iter_errors(content), None)
    if fault is not None:
        raise CardFault(fault.json_path, fault.message)


@cache
def _validator() -> Validator:
    """Make the schema's checker; loaded late, since most uses of the package never need it."""
    from jsonschema import Draft202012Validator  # noqa: PLC0415 - start-up time

    schema = json.loads((files("quarterwalk.card") / "schema.json").read_text("utf-8"))
    return Draft202012Validator(schema)
