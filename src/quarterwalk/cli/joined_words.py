"""A parser that takes a place south of the equator as a word of its own: ``--near -33.6,150``.

Nothing heavy is imported here.
"""

from __future__ import annotations

import argparse
import re

TYPE_CHECKING = False

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

# Two numbers with a comma between, the first of them below 0: no option is named so.
_PLACE = re.compile(r"-[\d.]+,\s*[+-]?[\d.]+", re.ASCII)


class WordJoiningParser(argparse.ArgumentParser):
    """A parser that reads ``--near -33.6,150`` as ``--near=-33.6,150``.

    Without it every word that begins with ``-`` and is no plain number is taken for the name
    of an option.
    """

    def parse_known_args(self, args: Sequence[str] | None = None, namespace: Any = None) -> Any:  # type: ignore[override]
        """Parse words as `argparse.ArgumentParser` does, those of a place joined first."""
        import sys

        words = sys.argv[1:] if args is None else args
        return super().parse_known_args(joined_places(words), namespace)


def joined_places(words: Sequence[str]) -> list[str]:
    """Join the name of an option and a place behind it whose latitude is below 0.

    Parameters
    ----------
    words : sequence of str
        Of a command line. What stands after ``--`` is no option and left alone.

    Returns
    -------
    list of str
    """
    joined: list[str] = []
    for word in words:
        before = joined[-1] if joined else ""
        names = before.startswith("--") and before != "--" and "=" not in before
        if names and "--" not in joined and _PLACE.fullmatch(word):
            joined[-1] = f"{before}={word}"
        else:
            joined.append(word)
    return joined
