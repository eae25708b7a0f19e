"""What the estimates need to know of a walk: sums over plants or stops, quadrant by quadrant.

Every estimate of this package is a function of these sums alone, so a thousand
walks cost one pass over their rows and the order of the plants can't matter.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

IntArray = NDArray[np.int64]
FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

QUADRANTS = 4


@dataclass(frozen=True, slots=True)
class ClusterSums:
    """Sums over single plants, or over stops, in each quadrant of each walk.

    All arrays have shape (walks, 4), quadrants in the order NW, NE, SW, SE.
    For insects `a` is adults and nymphs and `b` is 1 a plant (or the sweeps of
    the row); for square set `a` is healthy squares and `b` is squares looked
    at; for the blasted share `a` is blasted squares.

    Attributes
    ----------
    rows : int array, shape (walks, 4)
        Rows (plants) looked at. [count]
    clusters : int array, shape (walks, 4)
        Clusters with at least one row. [count]
    a, b : int array, shape (walks, 4)
        Sums of the clusters' a and of their b. [count]
    aa, ab, bb : int array, shape (walks, 4)
        Sums of the clusters' a squared, a times b, b squared. [count squared]
    """

    rows: IntArray
    clusters: IntArray
    a: IntArray
    b: IntArray
    aa: IntArray
    ab: IntArray
    bb: IntArray


def cluster_sums(
    a: IntArray, b: IntArray, cell: IntArray, cluster: IntArray | None, n_walks: int
) -> ClusterSums:
    """Add up the rows of many walks, plant by plant or stop by stop.

    Parameters
    ----------
    a, b : int array, shape (rows,)
        What was counted in each row, and out of how much. [count]
    cell : int array, shape (rows,)
        Walk number times 4 plus quadrant number. [index]
    cluster : int array, shape (rows,), or None
        Number of the row's cluster, from 0; a cluster lies in one cell. None
        when every row is a cluster of its own. [index]
    n_walks : int
        Number of walks; one without rows gets zeros. [count]

    Returns
    -------
    ClusterSums
        Arrays of shape (n_walks, 4).
    """
    n_cells = n_walks * QUADRANTS
    rows = np.bincount(cell, minlength=n_cells)
    if cluster is None:
        clusters, cluster_a, cluster_b, cluster_cell = rows, a, b, cell
    else:
        ids, first, member = np.unique(cluster, return_index=True, return_inverse=True)
        cluster_a = _summed(a, member, ids.size)
        cluster_b = _summed(b, member, ids.size)
        cluster_cell = cell[first]
        clusters = np.bincount(cluster_cell, minlength=n_cells)

    def by_cell(values: IntArray) -> IntArray:
        return _summed(values, cluster_cell, n_cells).reshape(n_walks, QUADRANTS)

    return ClusterSums(
        rows=rows.reshape(n_walks, QUADRANTS),
        clusters=clusters.reshape(n_walks, QUADRANTS),
        a=by_cell(cluster_a),
        b=by_cell(cluster_b),
        aa=by_cell(cluster_a * cluster_a),
        ab=by_cell(cluster_a * cluster_b),
        bb=by_cell(cluster_b * cluster_b),
    )


def _summed(values: IntArray, group: IntArray, n_groups: int) -> IntArray:
    # bincount adds in float64, which is exact: counts of a walk stay far below 2**53
    return np.bincount(group, weights=values, minlength=n_groups).astype(np.int64)
