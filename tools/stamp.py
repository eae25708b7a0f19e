"""What a finished environment was made from.

The stamp is written last. Without it, or when it no longer fits, the
environment is made afresh; so a set-up that was cut off never looks finished.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterable
from pathlib import Path

PARTS = ("demo", "test")
"""What an environment can hold; each holds all before it."""


def expected(root: Path, python: Path, locks: Iterable[Path]) -> dict[str, str]:
    """Tell what a finished environment of this repository would have been made from."""
    content = hashlib.sha256()
    for path in (*locks, root / "pyproject.toml"):
        content.update(path.read_bytes())
    return {
        "repository": str(root),
        "python": f"{sys.version_info.major}.{sys.version_info.minor}",
        "interpreter": os.path.realpath(python),
        "locks": content.hexdigest(),
    }


def holds(stamp: Path, wanted: dict[str, str], part: str) -> bool:
    """Say whether the stamp fits what is wanted and the part is in."""
    try:
        found = json.loads(stamp.read_text(encoding="utf-8"))
        enough = PARTS.index(found.pop("part")) >= PARTS.index(part)
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return False
    return enough and found == wanted and os.path.exists(wanted["interpreter"])


def write(stamp: Path, wanted: dict[str, str], part: str) -> None:
    """Put the stamp in place in one step."""
    draft = stamp.with_suffix(".draft")
    draft.write_text(json.dumps({**wanted, "part": part}, indent=1), encoding="utf-8")
    draft.replace(stamp)
