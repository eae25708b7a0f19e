"""Areas and lengths as they are said, in the units the user asked for."""

from __future__ import annotations

from quarterwalk.units import FOOT_M, HECTARES_PER_ACRE, MILE_FEET

# From so much on, lengths are told in miles; the shorter ones in feet. [feet]
_MILES_FROM = 2000

# From so much on, a decimal says more than anybody wants to know. [acre, hectare, mile or km]
_WHOLE_FROM = 100


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
    return f"{size:,.0f} {unit}" if size >= _WHOLE_FROM else f"{size:.1f} {unit}"


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
        return f"{_far(metres / 1000)} km" if metres >= 1000 else f"{round(metres, -1):,.0f} m"
    feet = metres / float(FOOT_M)
    if feet >= _MILES_FROM:
        return f"{_far(feet / MILE_FEET)} miles"
    return f"{round(feet, -1):,.0f} feet"


def _far(value: float) -> str:
    return f"{value:,.0f}" if round(value, 1) >= _WHOLE_FROM else f"{value:.1f}"
