"""The textbook ranges, kept to show why they are not used alone.

They take plants, or squares, to be unlike each other only by chance. Where
insects sit in clumps these ranges are too narrow; `benchmarks/coverage.py`
prints by how much.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import betaincinv, gammaincinv, ndtri

from quarterwalk.reading.sums import FloatArray


def garwood(count: ArrayLike, *, level: float) -> tuple[FloatArray, FloatArray]:
    """Give the range of the expected count, were each insect on its own.

    Parameters
    ----------
    count : int array, shape (...)
        Insects counted. [count]
    level : float
        Chance that the range holds the true value, at least. [fraction]

    Returns
    -------
    low, high : float arrays, shape (...)
        Ends of the range. [count]

    References
    ----------
    .. [1] F. Garwood, "Fiducial limits for the Poisson distribution,"
       Biometrika, vol. 28, pp. 437-442, 1936.
    """
    x = np.asarray(count, dtype=float)
    tail = (1.0 - level) / 2.0
    low = np.where(x > 0, gammaincinv(np.where(x > 0, x, 1.0), tail), 0.0)
    return low, np.asarray(gammaincinv(x + 1.0, 1.0 - tail))


def wilson(hit: ArrayLike, seen: ArrayLike, *, level: float) -> tuple[FloatArray, FloatArray]:
    """Give the range of a share, were each square lost on its own.

    Parameters
    ----------
    hit : int array, shape (...)
        Squares (or plants) that count. [count]
    seen : int array, broadcastable with `hit`
        Squares (or plants) looked at. [count]
    level : float
        Chance that the range holds the true share, nearly. [fraction]

    Returns
    -------
    low, high : float arrays, broadcast shape
        Ends of the range. [fraction]; NaN where `seen` is 0.

    References
    ----------
    .. [1] E. B. Wilson, "Probable inference, the law of succession, and
       statistical inference," J. Am. Stat. Assoc., vol. 22, no. 158,
       pp. 209-212, 1927.
    """
    n = np.asarray(seen, dtype=float)
    n = np.where(n > 0, n, np.nan)
    p = np.asarray(hit, dtype=float) / n
    z2 = ndtri((1.0 + level) / 2.0) ** 2
    middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n)
    half = np.sqrt(z2 * (p * (1.0 - p) / n + z2 / (4.0 * n**2))) / (1.0 + z2 / n)
    return np.maximum(middle - half, 0.0), np.minimum(middle + half, 1.0)


def clopper_pearson(
    hit: ArrayLike, seen: ArrayLike, *, level: float
) -> tuple[FloatArray, FloatArray]:
    """Give the range of a share that errs on the wide side, were each square on its own.

    Parameters
    ----------
    hit : int array, shape (...)
        Squares (or plants) that count. [count]
    seen : int array, broadcastable with `hit`
        Squares (or plants) looked at. [count]
    level : float
        Chance that the range holds the true share, at least. [fraction]

    Returns
    -------
    low, high : float arrays, broadcast shape
        Ends of the range. [fraction]; NaN where `seen` is 0.

    References
    ----------
    .. [1] C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial
       limits illustrated in the case of the binomial," Biometrika, vol. 26,
       pp. 404-413, 1934.
    """
    x, n = np.broadcast_arrays(np.asarray(hit, dtype=float), np.asarray(seen, dtype=float))
    tail = (1.0 - level) / 2.0
    some, rest = np.where(x > 0, x, 1.0), np.where(x < n, n - x, 1.0)
    low = np.where(x > 0, betaincinv(some, n - x + 1.0, tail), 0.0)
    high = np.where(x < n, betaincinv(x + 1.0, rest, 1.0 - tail), 1.0)
    return np.where(n > 0, low, np.nan), np.where(n > 0, high, np.nan)
