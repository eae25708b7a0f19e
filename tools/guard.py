"""One set-up at a time: a second ./run waits for the first."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from said import say

if sys.platform == "win32":
    import msvcrt

    def _take(number: int, *, wait: bool) -> None:
        msvcrt.locking(number, msvcrt.LK_LOCK if wait else msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(number: int, *, wait: bool) -> None:
        fcntl.flock(number, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def only_one(path: Path) -> Iterator[None]:
    """Hold the file at `path` for the length of the block.

    The system lets go of it when the process ends, however it ends.
    """
    with path.open("a") as held:
        try:
            _take(held.fileno(), wait=False)
        except OSError:
            say("Another ./run is making the environment. Waiting for it.")
            _take(held.fileno(), wait=True)
        yield
