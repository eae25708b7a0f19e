"""Names that people typed, made fit to stand in a line of print."""

from __future__ import annotations

import unicodedata

# Joiners that scripts and signs need inside a word; every other unseen character goes.
_KEPT = "\u200c\u200d"


def plain(name: str) -> str:
    """Take out of a name what nobody sees: line ends, controls, turns of direction.

    Parameters
    ----------
    name : str
        As it was typed.

    Returns
    -------
    str
        On one line, with single spaces; what can be seen is kept as it is.
    """
    seen = (" " if c.isspace() else c for c in name)
    kept = "".join(c for c in seen if c in _KEPT or unicodedata.category(c) not in _UNSEEN)
    return " ".join(kept.split())


# Controls, formats, surrogates, private use and unassigned (Unicode general categories).
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


def clipped(name: str, most: int) -> str:
    """Shorten a name to a number of characters.

    Parameters
    ----------
    name : str
        A name.
    most : int
        At least 4. [characters]

    Returns
    -------
    str
        With three points where something is left out.
    """
    return name if len(name) <= most else name[: most - 3].rstrip() + "..."
