"""Insects per plant of the field, with the range that the walk leaves open.

The method, why it was chosen and how often its ranges hold are on the method
page "Insects per 100".
"""

from __future__ import annotations

import numpy as np

from quarterwalk.reading.odds import PRIOR_COUNT
from quarterwalk.reading.sums import BoolArray, ClusterSums, FloatArray, IntArray

# 1/k of the negative binomial expected before the walk, and how far it may be off.
# Common practice for small bugs on single plants is k near 1; somewhat more clumped
# is taken: the least of the values tried with which coverage never fell under .86 in
# invented fields (method page).
# [dimensionless]
EXPECTED_CLUMPING = 1.5
CLUMPING_SPREAD = 1.0

# Excess kurtosis of a negative binomial is 6/k plus 1/variance; the second term
# belongs to the Poisson part, which the gamma carries by itself. [dimensionless]
KURTOSIS_PER_CLUMPING = 6.0


def density_odds(
    plants: ClusterSums, stops: ClusterSums, use_stops: BoolArray
) -> tuple[FloatArray, FloatArray]:
    """Give the odds of the insects per plant (or per sweep) of each walk's field.

    The estimate is the mean of the quadrants' means, each quadrant counting
    alike. How wide its range must be is judged from how unlike the plants (or
    stops) of one quadrant are; differences between quadrants don't widen it,
    since the quadrants are the field.

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
    shape, rate : float arrays, shape (walks,)
        Gamma parameters [count]; NaN where no plant had an insect check.

    Notes
    -----
    Variance = phi times Poisson variance, phi = 1 + density/k. phi comes from
    inside the quadrants, drawn toward k = 2/3 where the counts are too few to
    tell, and is raised by the relative variance of a sample variance,
    (kurtosis + 2)/n, because it is itself an estimate. The shape is insects/phi
    plus one half. With stops, the wider of the two forms holds.

    References
    ----------
    .. [1] P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed.,
       Chapman and Hall, 1989 (dispersion of counts).
    """
    present = plants.b > 0
    quadrants = present.sum(axis=1)
    weight = present / np.maximum(quadrants, 1)[:, None]
    mean = plants.a / np.maximum(plants.b, 1)
    density = (weight * mean).sum(axis=1)
    spread = (weight**2 / np.maximum(plants.b, 1)).sum(axis=1)
    # plants that would tell as much if all quadrants had equally many
    equal_plants = 1.0 / np.where(quadrants > 0, spread, np.nan)
    rows: IntArray = plants.rows.sum(axis=1)
    phi = dispersion(plants, rows)
    if use_stops.any():
        by_stop = dispersion(stops, rows)
        phi = np.where(use_stops, np.maximum(phi, by_stop), phi)
    rate = equal_plants / phi
    return density * rate + PRIOR_COUNT, rate


def dispersion(sums: ClusterSums, rows: IntArray) -> FloatArray:
    """Give how much wider than Poisson the insect counts of each walk must be taken.

    Parameters
    ----------
    sums : ClusterSums
        Sums over plants or stops. [count]
    rows : int array, shape (walks,)
        Plants looked at. [count]

    Returns
    -------
    float array, shape (walks,)
        phi, 1 or more; drawn toward expectation, raised for its own
        uncertainty. [ratio]
    """
    weight, _, density, spread = _means(sums)
    freedom = np.maximum(sums.clusters - 1, 0).sum(axis=1)
    # half an insect stands in for none, so that a clumping can be spoken of at all
    level = np.maximum(density, PRIOR_COUNT * spread)
    level = np.where(level > 0, level, 1.0)
    seen = (raw_dispersion(sums) - 1.0) / level
    expected = 1.0 + EXPECTED_CLUMPING * level
    noise = 2.0 * (expected / level) ** 2
    trust = freedom / (freedom + noise / CLUMPING_SPREAD**2)
    clumping = np.maximum(EXPECTED_CLUMPING + trust * (seen - EXPECTED_CLUMPING), 0.0)
    clusters = np.maximum(sums.clusters.sum(axis=1), 1)
    doubt = KURTOSIS_PER_CLUMPING * clumping / np.maximum(rows, 1) + 2.0 / clusters
    phi: FloatArray = (1.0 + level * clumping) * (1.0 + doubt)
    return phi


def raw_dispersion(sums: ClusterSums) -> FloatArray:
    """Give the variance inside the quadrants over what Poisson counts would show.

    Parameters
    ----------
    sums : ClusterSums
        Sums over plants or stops. [count]

    Returns
    -------
    float array, shape (walks,)
        The larger of two averages over the quadrants that have two clusters or
        more: by their part in the field mean, and by their clusters. They are
        equal when the quadrants have equal numbers. 1 where nothing was found
        or no quadrant has two clusters. [ratio]
    """
    weight, mean, density, _ = _means(sums)
    safe_b = np.maximum(sums.b, 1)
    freedom = np.maximum(sums.clusters - 1, 0)
    squares = np.maximum(sums.aa - 2.0 * mean * sums.ab + mean**2 * sums.bb, 0.0)
    variance = sums.clusters / np.maximum(freedom, 1) * squares / safe_b
    part = np.where(freedom > 0, weight**2 / safe_b, 0.0)
    # the quadrant with no insect and few plants must not pass for surely empty
    poisson = np.maximum((part * mean).sum(axis=1), density * part.sum(axis=1))
    return np.maximum(
        _ratio((part * variance).sum(axis=1), poisson),
        _ratio((freedom * variance).sum(axis=1), (freedom * mean).sum(axis=1)),
    )


def _means(sums: ClusterSums) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    present = sums.b > 0
    safe_b = np.maximum(sums.b, 1)
    weight = present / np.maximum(present.sum(axis=1), 1)[:, None]
    mean = sums.a / safe_b
    return weight, mean, (weight * mean).sum(axis=1), (weight**2 / safe_b).sum(axis=1)


def _ratio(seen: FloatArray, alone: FloatArray) -> FloatArray:
    return np.where(alone > 0, seen / np.where(alone > 0, alone, 1.0), 1.0)
