"""The best there is, by looking at everything: what our own search is held against."""

from __future__ import annotations

import numpy as np


def best_closed_way(ways):
    """Find the length of the shortest closed way (Held and Karp 1962).

    M. Held and R. M. Karp, "A dynamic programming approach to sequencing problems",
    Journal of the Society for Industrial and Applied Mathematics 10(1), 196-210, 1962.
    """
    last = len(ways) - 1
    best = np.full((1 << last, last), np.inf)
    for place in range(last):
        best[1 << place, place] = ways[0, place + 1]
    for mask in range(1, 1 << last):
        for place in range(last):
            rest = mask ^ (1 << place)
            if mask >> place & 1 and rest:
                best[mask, place] = (best[rest] + ways[1:, place + 1]).min()
    return (best[-1] + ways[1:, 0]).min()
