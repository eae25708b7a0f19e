"""What ./run tells its user: short plain lines, on standard error.

Standard output stays free for what the command itself prints.
"""

from __future__ import annotations

import sys


class SetupFailed(Exception):
    """Set-up can't go on; the text says what to do about it."""


def say(line: str) -> None:
    """Print one line at once, so that it stands before what a child prints."""
    print(line, file=sys.stderr, flush=True)
