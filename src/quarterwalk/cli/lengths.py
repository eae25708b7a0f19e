"""Areas and lengths as they are said, in the units the user asked for."""

from __future__ import annotations

from quarterwalk.units import FOOT_M, HECTARES_PER_ACRE, MILE_FEET

# From so much on, lengths are told in miles; the shorter ones in feet. [feet]
_MILES_FROM = 2000


def area_words(acres: float, *, metric: bool) -> str:
    """Write an area as it is said.

    Parameters
    ----------
    acres : float
        [acre]
    metric : bool
        Whether hectares are asked for.

    Returns
    -------
    str
    """
    size, unit = (acres * float(HECTARES_PER_ACRE), "hectares") if metric else (acres, "acres")
    return f"{size:.0f} {unit}" if size >= 100 else f"{size:.1f} {unit}"


def length_words(metres: float, *, metric: bool) -> str:
    """Write a length as it is said.

    Parameters
    ----------
    metres : float
        [m]
    metric : bool
        Whether metres are asked for.

    Returns
    -------
    str
    """
    if metric:
        return f"{metres / 1000:.1f} km" if metres >= 1000 else f"{round(metres, -1):.0f} m"
    feet = metres / float(FOOT_M)
    if feet >= _MILES_FROM:
        return f"{feet / MILE_FEET:.1f} miles"
    return f"{round(feet, -1):.0f} feet"
