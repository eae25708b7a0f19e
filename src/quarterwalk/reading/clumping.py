"""How clumped insects are, and how alike the squares of one plant, from a user's own walks.

These fits serve planning and the method pages. No reading of a walk depends on
them: a range is widened by what the walk itself shows.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import brentq, minimize
from scipy.special import betaln, expit, gammaln, polygamma, xlogy

from quarterwalk.reading.sums import FloatArray, IntArray

# Clumping 1/k is looked for between these: below, counts can't be told from
# Poisson; above, nearly all plants are empty. [dimensionless]
LEAST_CLUMPING = 1e-6
MOST_CLUMPING = 1e6

# A likeness rho under this can't be told from none. [fraction]
LEAST_LIKENESS = 1e-5

# Where the search for rho begins, on the logit scale: rho = 0.12. [dimensionless]
STARTING_LIKENESS = -2.0

# The search stays off the edges, where the beta function can't be computed. [dimensionless]
MOST_LOGIT = 14.0


@dataclass(frozen=True, slots=True)
class Clumping:
    """How clumped the insects on plants are: a fitted negative binomial.

    Attributes
    ----------
    mean : float
        Insects per plant. [per plant]
    k : float
        Small k: clumped; infinite: no more than chance would do. [dimensionless]
    k_error : float
        Standard error of k; NaN where k is infinite. [dimensionless]
    log_likelihood : float
        Log of the chance of these counts under the fit. [dimensionless]
    moment_k : float
        k from mean and variance alone. [dimensionless]
    """

    mean: float
    k: float
    k_error: float
    log_likelihood: float
    moment_k: float


@dataclass(frozen=True, slots=True)
class Likeness:
    """How alike the squares of one plant fare: a fitted beta-binomial.

    Attributes
    ----------
    share : float
        Healthy squares over squares. [fraction]
    rho : float
        Correlation of two squares of one plant; 0 when none. [fraction]
    log_likelihood : float
        Log of the chance of these counts under the fit, arrangements counted.
        [dimensionless]
    """

    share: float
    rho: float
    log_likelihood: float


def fit_clumping(counts: ArrayLike) -> Clumping:
    """Tell from counts on single plants how clumped the insects are.

    Parameters
    ----------
    counts : int array, shape (plants,)
        Insects on each plant. [count]

    Returns
    -------
    Clumping
        Maximum-likelihood fit, with k from the moments beside it.

    Raises
    ------
    ValueError
        If there is no plant, or a count is negative.

    Notes
    -----
    The estimate of the mean is the plain mean; k is the root of its score in
    1/k. Under-dispersed counts have no finite k.

    References
    ----------
    .. [1] C. I. Bliss and R. A. Fisher, "Fitting the negative binomial
       distribution to biological data," Biometrics, vol. 9, pp. 176-200, 1953.
    """
    x = np.asarray(counts, dtype=float)
    if x.size == 0 or x.min() < 0:
        raise ValueError("counts must be one or more whole numbers from 0 on. Leave blanks out.")
    mean = float(x.mean())
    variance = float(x.var(ddof=1)) if x.size > 1 else 0.0
    moment_k = mean**2 / (variance - mean) if variance > mean else np.inf
    k = _likeliest_k(x)
    if np.isinf(k):
        log_likelihood = float((xlogy(x, mean) - mean - gammaln(x + 1.0)).sum())
        return Clumping(mean, np.inf, np.nan, log_likelihood, moment_k)
    chance = gammaln(x + k) - gammaln(k) - gammaln(x + 1.0)
    chance += k * np.log(k / (k + mean)) + x * np.log(mean / (k + mean))
    return Clumping(mean, k, _k_error(x, k, mean), float(chance.sum()), moment_k)


def fit_likeness(healthy: ArrayLike, sites: ArrayLike) -> Likeness:
    """Tell from squares on single plants how alike those of one plant fare.

    Parameters
    ----------
    healthy : int array, shape (plants,)
        Healthy squares of each plant. [count]
    sites : int array, shape (plants,)
        Squares looked at on each plant; plants without any are left out. [count]

    Returns
    -------
    Likeness
        Maximum-likelihood fit.

    Raises
    ------
    ValueError
        If no plant has a square, or a plant has more healthy than looked at.

    References
    ----------
    .. [1] J. G. Skellam, "A probability distribution derived from the binomial
       distribution by regarding the probability of success as variable between
       the sets of trials," J. R. Stat. Soc. B, vol. 10, pp. 257-261, 1948.
    """
    hit, seen = np.asarray(healthy, dtype=float), np.asarray(sites, dtype=float)
    if not (seen > 0).any() or (hit < 0).any() or (hit > seen).any():
        raise ValueError("healthy must lie from 0 to sites, and some plant must have a site.")
    hit, seen = hit[seen > 0], seen[seen > 0]
    share = float(hit.sum() / seen.sum())
    ways = gammaln(seen + 1.0) - gammaln(hit + 1.0) - gammaln(seen - hit + 1.0)
    alone = float((ways + xlogy(hit, share) + xlogy(seen - hit, 1.0 - share)).sum())
    if share in (0.0, 1.0) or seen.max() < 2:
        return Likeness(share, 0.0, alone)
    kinds, plants = np.unique(np.stack((hit, seen)), axis=1, return_counts=True)
    best = minimize(
        _likeness_loss,
        (np.log(share / (1.0 - share)), STARTING_LIKENESS),
        args=(kinds[0], kinds[1], plants),
        method="Nelder-Mead",
        options={"xatol": 1e-10, "fatol": 1e-12, "maxiter": 2000},
    )
    mu, rho = expit(best.x)
    chance = float(ways.sum() - best.fun)
    # a likeness that explains nothing is none
    if rho < LEAST_LIKENESS or chance <= alone:
        return Likeness(share, 0.0, alone)
    return Likeness(float(mu), float(rho), chance)


def _likeliest_k(x: FloatArray) -> float:
    over = x.size - np.cumsum(np.bincount(x.astype(np.int64)))[:-1].astype(float)
    low, high = np.log(LEAST_CLUMPING), np.log(MOST_CLUMPING)
    # the score at 1/k = 0 has the sign of the sum of squares less the total
    even = ((x - x.mean()) ** 2).sum() <= x.sum()
    if even or _k_score(low, over, x.size) <= 0.0:
        return float("inf")
    return float(np.exp(-brentq(_k_score, low, high, args=(over, x.size), xtol=1e-13)))


def _k_score(log_clumping: float, over: FloatArray, plants: int) -> float:
    # `over[j]` plants have more than j insects; so written, nothing cancels for large k
    k = np.exp(-log_clumping)
    step = np.arange(over.size)
    mean = over.sum() / plants
    return float(
        k * (over * step / (k + step)).sum() - plants * k**2 * (mean / k - np.log1p(mean / k))
    )


def _likeness_loss(where: FloatArray, hit: FloatArray, seen: FloatArray, plants: IntArray) -> float:
    share, rho = expit(np.clip(where, -MOST_LOGIT, MOST_LOGIT))
    alike = (1.0 - rho) / rho
    kept, lost = share * alike, (1.0 - share) * alike
    lost_chance = betaln(kept, lost) - betaln(hit + kept, seen - hit + lost)
    return float((plants * lost_chance).sum())


def _k_error(x: FloatArray, k: float, mean: float) -> float:
    bend = polygamma(1, x + k) - polygamma(1, k) + 1.0 / k - 1.0 / (k + mean)
    bend -= (mean - x) / (k + mean) ** 2
    information = -float(bend.sum())
    return float(np.sqrt(1.0 / information)) if information > 0 else float("nan")
