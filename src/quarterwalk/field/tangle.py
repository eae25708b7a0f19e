"""Whether lines meet so often that no boundary can be meant."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import STRtree

from quarterwalk.field.rings import Ring

# A line of a plain ring meets itself and its two neighbours; a hundred folds, or an edge
# that two parts share, add little to that. A scribble made to keep a computer busy meets
# thousands of times (this project's rule).
MOST_MEETINGS = 20
"""Lines that a line of a boundary may meet, on the average. [count]"""

_AT_ONCE = 200


def tangled(rings: Sequence[Ring]) -> bool:
    """Tell a scribble from a boundary, before time is spent on mending it.

    Parameters
    ----------
    rings : sequence of arrays, each of shape (points, 2)
        Lines from point to point. [any unit]

    Returns
    -------
    bool
        Whether lines meet more often than `MOST_MEETINGS` times each.
    """
    ends = [np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings]
    lines = np.asarray(shapely.linestrings(np.concatenate(ends)))
    tree = STRtree(lines)
    left = MOST_MEETINGS * len(lines)
    for start in range(0, len(lines), _AT_ONCE):
        met = tree.query(lines[start : start + _AT_ONCE], predicate="intersects")
        left -= met.shape[1]
        if left < 0:
            return True
    return False
