"""JSON in its one form, so that equal content has equal bytes."""

from __future__ import annotations

import json
from typing import Any


def canonical(content: Any) -> bytes:
    """Write JSON with sorted keys and no idle spaces, in UTF-8.

    Parameters
    ----------
    content : dict, list or value
        Values that JSON knows; no number that is not finite.

    Returns
    -------
    bytes
    """
    return json.dumps(
        content, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    ).encode()
