"""Names of fields as names of files, on every system."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

# Longer names are cut; some systems take 255 bytes with the ending. [characters]
_MOST = 80
# Names that one system keeps for its devices, whatever the ending.
_RESERVED = frozenset(
    {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}
)


def file_names(names: Iterable[str]) -> list[str]:
    """Make names of files that tell the fields, all different.

    Parameters
    ----------
    names : iterable of str
        Any names, also alike.

    Returns
    -------
    list of str
        In the same order, of letters, digits and hyphens, without an ending.
    """
    taken: set[str] = set()
    made = []
    for name in names:
        plain, number = _plain(name), 1
        told = plain
        while told.lower() in taken:
            number += 1
            told = f"{plain}-{number}"
        taken.add(told.lower())
        made.append(told)
    return made


def _plain(name: str) -> str:
    """Keep letters and digits of any script; join the rest with hyphens."""
    composed = unicodedata.normalize("NFC", name)
    told = re.sub(r"[\W_]+", "-", composed)[:_MOST].strip("-")
    if not told or told.lower() in _RESERVED:
        return f"field-{told}".rstrip("-")
    return told
