"""Units at the edge: acres and hectares, without rounding."""

from __future__ import annotations

from fractions import Fraction

# The foot, exact, the mile in feet and the acre in square feet (NIST Special Publication
# 811, 2008, appendix B). [m], [feet], [square feet]
FOOT_M = Fraction(3048, 10_000)
MILE_FEET = 5280
ACRE_SQUARE_FEET = 43_560
MILES_PER_KM = float(1000 / (MILE_FEET * FOOT_M))
# By the definition of the prefix. [m²]
HECTARE_M2 = 10_000

HECTARES_PER_ACRE = ACRE_SQUARE_FEET * FOOT_M**2 / HECTARE_M2
"""One acre, exact: 4046.8564224 m². [ha]"""


def hectares_from_acres(acres: Fraction | int) -> Fraction:
    """Turn acres into hectares.

    Parameters
    ----------
    acres : Fraction or int
        An area. [acre]

    Returns
    -------
    Fraction
        The same area, exact. [ha]
    """
    return acres * HECTARES_PER_ACRE


def acres_from_hectares(hectares: Fraction | int) -> Fraction:
    """Turn hectares into acres.

    Parameters
    ----------
    hectares : Fraction or int
        An area. [ha]

    Returns
    -------
    Fraction
        The same area, exact. [acre]
    """
    return hectares / HECTARES_PER_ACRE
