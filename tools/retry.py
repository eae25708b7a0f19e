"""Try again when a download drops."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from said import say

PAUSES_S = (2.0, 5.0, 15.0, 30.0)
"""How long to wait before the second try, the third and so on. [s] Common practice."""


def succeeds(
    what: str,
    attempt: Callable[[], bool],
    *,
    pauses: Sequence[float] = PAUSES_S,
    sleep: Callable[[float], None] = time.sleep,
) -> bool:
    """Say whether `attempt` came through, after as many tries as there are pauses, and one."""
    for pause in pauses:
        if attempt():
            return True
        say(f"{what} did not come through. Trying again in {pause:.0f} s.")
        sleep(pause)
    return attempt()
