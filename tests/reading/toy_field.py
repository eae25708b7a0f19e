"""An invented field of 100 plants, worked by other programs: see the values where it is used."""

from __future__ import annotations

import numpy as np

from quarterwalk.reading.sums import ClusterSums, cluster_sums

QUADRANT = np.repeat(np.arange(4), 25)
STOP = np.arange(100) // 5
SQUARES = np.tile([3, 2, 4, 3, 1, 3, 2, 5, 3, 2, 3, 4, 2, 3, 3, 1, 4, 2, 3, 3, 2, 3, 4, 3, 2], 4)


def _counts(plants_by_count: dict[int, tuple[int, ...]]) -> np.ndarray:
    counts = np.zeros(100, dtype=np.int64)
    for count, plants in plants_by_count.items():
        counts[np.array(plants) - 1] = count
    return counts


LOST = _counts(
    {
        1: (
            3,
            7,
            8,
            15,
            20,
            29,
            34,
            39,
            46,
            51,
            54,
            56,
            60,
            62,
            67,
            68,
            70,
            74,
            77,
            83,
            86,
            94,
            100,
        ),
        2: (12, 42, 53, 64, 73),
        3: (58,),
    }
)
INSECTS = _counts(
    {
        1: (3, 11, 17, 24, 31, 40, 51, 55, 61, 64, 70, 73, 79, 88, 98),
        2: (8, 53, 67),
        3: (58,),
        4: (75,),
    }
)


def sums(a, b=None, quadrant=QUADRANT, stop=None) -> ClusterSums:
    """Sum one walk given row by row."""
    a = np.asarray(a, dtype=np.int64)
    b = np.ones_like(a) if b is None else np.asarray(b, dtype=np.int64)
    return cluster_sums(a, b, np.asarray(quadrant), stop, 1)


NO_STOPS = np.zeros(1, dtype=bool)
STOPS = np.ones(1, dtype=bool)
