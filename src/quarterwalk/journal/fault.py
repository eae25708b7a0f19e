"""What can be wrong with an entry that the bytes alone give away."""

from __future__ import annotations

from enum import StrEnum

from quarterwalk.errors import QuarterwalkError
from quarterwalk.journal.ids import Key


class FaultCode(StrEnum):
    """Why an entry was set aside."""

    NOT_JSON = "not-json"
    TOO_LARGE = "too-large"
    SCHEMA = "schema"


class EntryFault(QuarterwalkError, ValueError):
    """An entry that can't be taken: a code, why in words, and its key where one can be read."""

    def __init__(self, code: FaultCode, why: str, key: Key | None = None) -> None:
        super().__init__(code, why, key)
        self.code = code
        self.why = why
        self.key = key

    def __str__(self) -> str:
        if self.key is None:
            return self.why
        return f"entry {self.key.seq} of {self.key.device}: {self.why}"
