"""Names of fields as names of files, on every system."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

# Longer names are cut; systems take 255 bytes with ending and what a half-written file adds.
# [bytes]
_MOST = 150
# Names that one system keeps for its devices, whatever the ending.
_RESERVED = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "123456789¹²³")}
)


def file_names(names: Iterable[str], after: Iterable[str] | None = None) -> list[str]:
    """Make names of files that tell the fields, all different.

    Parameters
    ----------
    names : iterable of str
        Any names, also alike.
    after : iterable of str or None
        What follows each name whole, such as a day; None for nothing.

    Returns
    -------
    list of str
        In the same order, of letters, digits and hyphens, without an ending.
    """
    taken: set[str] = set()
    made = []
    pairs = ((name, "") for name in names) if after is None else zip(names, after, strict=True)
    for name, tail in pairs:
        plain, number = _plain(name), 1
        told = base = f"{plain}-{tail}" if tail else plain
        while told.casefold() in taken:
            number += 1
            told = f"{base}-{number}"
        taken.add(told.casefold())
        made.append(told)
    return made


def _plain(name: str) -> str:
    """Keep letters and digits of any script; join the rest with hyphens."""
    composed = unicodedata.normalize("NFC", name)
    told = re.sub(r"[\W_]+", "-", composed).strip("-")
    told = told.encode("utf-8", "ignore")[:_MOST].decode("utf-8", "ignore").strip("-")
    if not told or told.casefold() in _RESERVED:
        return f"field-{told}".rstrip("-")
    return told
