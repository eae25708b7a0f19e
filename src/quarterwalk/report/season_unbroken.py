"""Words of a season that stay on one line."""

from __future__ import annotations

import re

_IN_TEN = re.compile(r"\b(?:(\d+) )?(in|en) (10|20|100)\b")
_JOIN = "\u00a0"


def unbroken(text: str) -> str:
    """Keep chances such as ``8 in 10`` on one line, by spaces that do not break.

    Parameters
    ----------
    text : str
        A sentence in any language.

    Returns
    -------
    str
    """
    return _IN_TEN.sub(lambda found: _JOIN.join(filter(None, found.groups())), text)
