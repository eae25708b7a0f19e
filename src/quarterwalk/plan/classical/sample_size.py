"""How many plants for a mean that is known so well; D is standard error over mean.

None is rounded; a walk takes the next whole number.
"""

from __future__ import annotations


def taylor_plants(mean: float, a: float, b: float, precision: float) -> float:
    """Give the plants needed where the variance is a × mean^b.

    Parameters
    ----------
    mean : float
        Mean. [per plant]
    a, b : float
        Of Taylor's power law. [dimensionless]
    precision : float
        D. [fraction]

    Returns
    -------
    float
        Plants, not rounded. [count]

    References
    ----------
    .. [1] L. R. Taylor, "Aggregation, variance and the mean," Nature, vol. 189, pp. 732-735,
       1961.
    """
    return a * float(mean ** (b - 2.0)) / precision**2


def clumped_plants(mean: float, k: float, precision: float) -> float:
    """Give the plants needed where counts are negative binomial: (1/mean + 1/k)/D².

    Parameters
    ----------
    mean : float
        Mean. [per plant]
    k : float
        Small k: clumped; infinite: Poisson. [dimensionless]
    precision : float
        D. [fraction]

    Returns
    -------
    float
        Plants, not rounded. [count]
    """
    return (1.0 / mean + 1.0 / k) / precision**2


def half_width_plants(mean: float, k: float, half_width: float, z: float) -> float:
    """Give the plants needed for a confidence interval of the mean of so half a width.

    Parameters
    ----------
    mean : float
        Mean. [per plant]
    k : float
        Small k: clumped; infinite: Poisson. [dimensionless]
    half_width : float
        Half the width of the interval over the mean. [fraction]
    z : float
        Standard errors in half the width. [dimensionless]

    Returns
    -------
    float
        Plants, not rounded. [count]

    References
    ----------
    .. [1] M. G. Karandinos, "Optimum sample size and comments on some published formulae,"
       Bulletin of the Entomological Society of America, vol. 22, pp. 417-421, 1976.
    """
    return clumped_plants(mean, k, half_width / z)


def hit_plants(share: float, precision: float) -> float:
    """Give the plants needed where each is hit or not: (1 - share)/(share × D²).

    Parameters
    ----------
    share : float
        Share of plants hit. [fraction]
    precision : float
        D. [fraction]

    Returns
    -------
    float
        Plants, not rounded. [count]
    """
    return (1.0 - share) / (share * precision**2)
