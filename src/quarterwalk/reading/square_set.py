"""Square set and blasted share of the field, with the range that the walk leaves open.

The method, why it was chosen and how often its ranges hold are on the method
page "Square set".
"""

from __future__ import annotations

import numpy as np

from quarterwalk.reading.odds import PRIOR_COUNT
from quarterwalk.reading.sums import BoolArray, ClusterSums, FloatArray


def share_odds(
    plants: ClusterSums, stops: ClusterSums, use_stops: BoolArray
) -> tuple[FloatArray, FloatArray]:
    """Give the odds of the share of squares that count in each walk's field.

    Healthy squares out of all looked at give square set; blasted ones out of
    all give the blasted share. Squares of one plant fare alike, so ten squares
    of one plant say less than ten squares of ten plants.

    Parameters
    ----------
    plants : ClusterSums
        Sums over the square-checked plants; a is squares that count, b squares
        looked at. [count]
    stops : ClusterSums
        The same plants summed stop by stop. [count]
    use_stops : bool array, shape (walks,)
        True where every square-checked plant has a stop. [yes/no]

    Returns
    -------
    kept, lost : float arrays, shape (walks,)
        Beta parameters [count]; NaN where no square was looked at.

    Notes
    -----
    The share is the ratio of the quadrant-weighted means per plant. Its
    variance is that of the residuals a - share * b inside the quadrants; over
    the binomial variance it gives a design effect (1 or more), which is raised
    by the relative variance of a variance and divides the squares. With stops,
    the larger design effect of the two forms holds.

    References
    ----------
    .. [1] W. G. Cochran, Sampling Techniques, 3rd ed., Wiley, 1977 (combined
       ratio estimate in strata).
    .. [2] L. Kish, Survey Sampling, Wiley, 1965 (design effect).
    """
    rows = plants.rows
    weight = (rows > 0) / np.maximum(rows, 1) / np.maximum((rows > 0).sum(axis=1), 1)[:, None]
    squares = (weight * plants.b).sum(axis=1)
    squares = np.where(squares > 0, squares, np.nan)
    share = (weight * plants.a).sum(axis=1) / squares
    # squares that would tell as much if all counted alike and fared unlike
    alone = squares**2 / np.where(squares > 0, (weight**2 * plants.b).sum(axis=1), np.nan)
    effect = design_effect(plants, weight, share, alone)
    if use_stops.any():
        by_stop = design_effect(stops, weight, share, alone)
        effect = np.where(use_stops, np.fmax(effect, by_stop), effect)
    told = alone / effect
    # rounding must not carry all or none past the edge
    share = np.clip(share, 0.0, 1.0)
    return share * told + PRIOR_COUNT, (1.0 - share) * told + PRIOR_COUNT


def design_effect(
    sums: ClusterSums, weight: FloatArray, share: FloatArray, alone: FloatArray
) -> FloatArray:
    """Give how many squares of these tell no more than one square by itself would.

    Parameters
    ----------
    sums : ClusterSums
        Sums over plants or stops. [count]
    weight : float array, shape (walks, 4)
        Part of each square in the field mean. [1 per plant]
    share : float array, shape (walks,)
        Share of squares that count. [fraction]
    alone : float array, shape (walks,)
        Squares, as many as would count if all fared unlike. [count]

    Returns
    -------
    float array, shape (walks,)
        1 or more, raised for its own uncertainty. [ratio]
    """
    clusters = sums.clusters
    freedom = np.maximum(clusters - 1, 0)
    measured = np.where(freedom > 0, weight**2, 0.0) * clusters
    each = sums.b / np.maximum(clusters, 1)
    chance = share * (1.0 - share)
    by_part = _ratio(
        residual_variance(sums, weight, share).sum(axis=1),
        chance * (measured * each).sum(axis=1),
    )
    # a quadrant with few plants must not set the width by itself, nor escape it
    inside = _residual_squares(sums, share).sum(axis=1)
    by_count = _ratio(inside, chance * (freedom * each).sum(axis=1))
    raw = np.maximum(np.maximum(by_part, by_count), 1.0)
    # kurtosis + 2 over n, for something rare, is one over how often it was seen
    rarer = np.minimum(share, 1.0 - share) * alone
    doubt = 2.0 / np.maximum(freedom.sum(axis=1), 1) + 1.0 / np.maximum(rarer, 1.0)
    effect: FloatArray = raw * (1.0 + doubt)
    return effect


def residual_variance(sums: ClusterSums, weight: FloatArray, share: FloatArray) -> FloatArray:
    """Give each quadrant's part in how far the squares that count may be off by chance.

    Summed over the quadrants and divided by the square of the weighted squares
    looked at, it is the variance of the share.

    Parameters
    ----------
    sums : ClusterSums
        Sums over plants or stops. [count]
    weight : float array, shape (walks, 4)
        Part of each square in the field mean. [1 per plant]
    share : float array, shape (walks,)
        Share of squares that count. [fraction]

    Returns
    -------
    float array, shape (walks, 4)
        Variance of the weighted sum of a - share * b; 0 for a quadrant without
        two clusters, which tells nothing of it. [squares per plant, squared]

    References
    ----------
    .. [1] W. G. Cochran, Sampling Techniques, 3rd ed., Wiley, 1977 (combined
       ratio estimate in strata).
    """
    freedom = np.maximum(sums.clusters - 1, 0)
    measured = np.where(freedom > 0, weight**2, 0.0) * sums.clusters
    variance: FloatArray = measured * _residual_squares(sums, share) / np.maximum(freedom, 1)
    return variance


def _residual_squares(sums: ClusterSums, share: FloatArray) -> FloatArray:
    part = share[:, None]
    residual = sums.a - part * sums.b
    squared = sums.aa - 2.0 * part * sums.ab + part**2 * sums.bb
    inside: FloatArray = np.maximum(squared - residual**2 / np.maximum(sums.clusters, 1), 0.0)
    return inside


def _ratio(seen: FloatArray, alone: FloatArray) -> FloatArray:
    return np.where(alone > 0, seen / np.where(alone > 0, alone, 1.0), 1.0)
