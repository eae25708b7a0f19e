"""Are the insects spread evenly over the quadrants, or is there a hot corner?"""

from __future__ import annotations

import numpy as np
from scipy.special import chdtrc

from quarterwalk.reading.density import raw_dispersion
from quarterwalk.reading.sums import BoolArray, ClusterSums, FloatArray


def evenness_p(plants: ClusterSums, stops: ClusterSums, use_stops: BoolArray) -> FloatArray:
    """Give the chance of quadrants as unlike as these if insects were spread evenly.

    A small value speaks for a hot corner. A large one does not prove that the
    field is even: with few insects nothing much can be told.

    Parameters
    ----------
    plants : ClusterSums
        Sums over the insect-checked plants; a is insects, b plants or sweeps. [count]
    stops : ClusterSums
        The same plants summed stop by stop. [count]
    use_stops : bool array, shape (walks,)
        True where every insect-checked plant has a stop. [yes/no]

    Returns
    -------
    float array, shape (walks,)
        P value [fraction]; NaN with fewer than two quadrants, 1 where no insect
        was found.

    Notes
    -----
    Pearson's chi-square for equal densities, divided by the dispersion inside
    the quadrants (at least 1), against chi-square with one degree of freedom
    less than there are quadrants. With stops the larger dispersion holds.

    References
    ----------
    .. [1] P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed.,
       Chapman and Hall, 1989 (dispersion of counts).
    """
    quadrants = (plants.b > 0).sum(axis=1)
    b = plants.b.sum(axis=1, keepdims=True)
    even = plants.a.sum(axis=1, keepdims=True) * plants.b / np.maximum(b, 1)
    squares = np.where(even > 0, (plants.a - even) ** 2 / np.where(even > 0, even, 1.0), 0.0)
    phi = np.maximum(raw_dispersion(plants), 1.0)
    if use_stops.any():
        phi = np.where(use_stops, np.maximum(phi, raw_dispersion(stops)), phi)
    p = chdtrc(np.maximum(quadrants - 1, 1), squares.sum(axis=1) / phi)
    return np.where(quadrants >= 2, p, np.nan)
