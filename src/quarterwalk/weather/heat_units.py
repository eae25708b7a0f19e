"""Heat units of days from their lowest and highest temperature, by every usual convention.

The conventions differ by several units on the same day, so that a table of heat units holds
only with the convention it was made with. All take degrees of one kind, °F or °C, and give
degree-days of the same kind; base 60 °F gives the DD60 of cotton.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Protocol

import numpy as np
import numpy.typing as npt

from quarterwalk.weather.daily import FloatArray
from quarterwalk.weather.day_curve import DayCurve, sine_over, triangle_over
from quarterwalk.weather.heat_averages import four_case, held_extremes, simple_average
from quarterwalk.weather.heat_lines import COTTON_BASE_F, CutOff, Lines, checked_days

__all__ = [
    "COTTON_BASE_F",
    "HEAT_METHODS",
    "CutOff",
    "HeatMethod",
    "double_sine",
    "double_triangle",
    "four_case",
    "held_extremes",
    "simple_average",
    "single_sine",
    "single_triangle",
]


class HeatMethod(Protocol):
    """Gives the heat units of days.

    Parameters
    ----------
    tmin, tmax : array of any shape, days along the last axis
        Lowest and highest temperature of each day; NaN where missing. [degrees]
    base : float
        Growth begins here. [degrees]
    cap : float or None
        Growth gets no faster from here. [degrees]
    cutoff : CutOff
        What is above the cap is worth this.

    Returns
    -------
    float array
        Heat units of each day, never below 0; NaN where a temperature is missing. [degree-days]

    Raises
    ------
    WeatherError
        If a lowest temperature is above its highest, the base is not below the cap, or the
        cap or the cut-off means nothing in this method.
    """

    def __call__(
        self,
        tmin: npt.ArrayLike,
        tmax: npt.ArrayLike,
        *,
        base: float = ...,
        cap: float | None = ...,
        cutoff: CutOff = ...,
    ) -> FloatArray:
        """Give the heat units of days."""
        ...


def single_triangle(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
) -> FloatArray:
    """Draw straight lines from the lowest to the highest and back; see `HeatMethod`."""
    return _one_curve(triangle_over, tmin, tmax, Lines(base, cap, cutoff))


def double_triangle(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
    next_tmin: npt.ArrayLike = np.nan,
) -> FloatArray:
    """Draw a straight line up to the highest and one down to the next day's lowest.

    `next_tmin` is the lowest of the day after the last, one for each row of days; without it
    the last day is NaN. [degrees] See `HeatMethod`.
    """
    return _two_curves(triangle_over, tmin, tmax, next_tmin, Lines(base, cap, cutoff))


def single_sine(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
) -> FloatArray:
    """Draw one swing of a sine between the lowest and the highest; see `HeatMethod`."""
    return _one_curve(sine_over, tmin, tmax, Lines(base, cap, cutoff))


def double_sine(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
    next_tmin: npt.ArrayLike = np.nan,
) -> FloatArray:
    """Draw half a swing of a sine up to the highest and half down to the next day's lowest.

    `next_tmin` is the lowest of the day after the last, one for each row of days; without it
    the last day is NaN. [degrees] See `HeatMethod`.
    """
    return _two_curves(sine_over, tmin, tmax, next_tmin, Lines(base, cap, cutoff))


HEAT_METHODS: Mapping[str, HeatMethod] = MappingProxyType(
    {
        "simple-average": simple_average,
        "held-extremes": held_extremes,
        "four-case": four_case,
        "single-triangle": single_triangle,
        "double-triangle": double_triangle,
        "single-sine": single_sine,
        "double-sine": double_sine,
    }
)
"""Each method by its name."""


def _one_curve(
    curve: DayCurve, tmin: npt.ArrayLike, tmax: npt.ArrayLike, lines: Lines
) -> FloatArray:
    return np.maximum(lines.worth(curve, *checked_days(tmin, tmax)), 0.0)


def _two_curves(
    curve: DayCurve,
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    next_tmin: npt.ArrayLike,
    lines: Lines,
) -> FloatArray:
    low, high = checked_days(tmin, tmax)
    days = np.atleast_1d(low)
    after = np.empty_like(days)
    after[..., :-1] = days[..., 1:]
    after[..., -1:] = np.asarray(next_tmin, np.float64)[..., np.newaxis]
    after = after.reshape(low.shape)
    up = lines.worth(curve, low, high)
    # a night may stay warmer than the day before it, and then the second half goes up too
    down = lines.worth(curve, np.minimum(high, after), np.maximum(high, after))
    return np.maximum((up + down) / 2, 0.0)
