"""What heat units are taken from: a day's extremes, the base and the cap, and what lies above."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from quarterwalk.weather.daily import FloatArray, WeatherError
from quarterwalk.weather.day_curve import DayCurve

# °F; below it cotton is taken not to grow (common practice, the base of DD60)
COTTON_BASE_F = 60.0


class CutOff(StrEnum):
    """What the heat above the cap is worth, where the course of the day is drawn."""

    HORIZONTAL = "horizontal"
    """It counts as if it were at the cap: the area over the base less that over the cap."""
    INTERMEDIATE = "intermediate"
    """It slows growth as much as it is too hot: less twice the area over the cap, a day never
    below 0."""
    VERTICAL = "vertical"
    """Growth stands still: only the time at or under the cap counts."""


@dataclass(frozen=True, slots=True)
class Lines:
    """The base and the cap, and what the heat above the cap is worth.

    Parameters
    ----------
    base : float
        Growth begins here. [degrees]
    cap : float or None
        Growth gets no faster from here. [degrees]
    cutoff : CutOff
        What is above the cap is worth this.

    Raises
    ------
    WeatherError
        If the base is not below the cap, or there is a cut-off without a cap.
    """

    base: float
    cap: float | None
    cutoff: CutOff

    def __post_init__(self) -> None:
        if not np.isfinite(self.base):
            raise WeatherError(f"the base must be a number, got {self.base}.")
        if self.cap is None:
            if self.cutoff is not CutOff.HORIZONTAL:
                raise WeatherError(f"a cut-off ({self.cutoff}) needs a cap; give one.")
        elif not self.base < self.cap < np.inf:
            raise WeatherError(
                f"the cap must be above the base, got base {self.base:g} and cap {self.cap:g}."
            )

    def without_curve(self) -> None:
        """Refuse what needs the time over the cap, where no course of the day is drawn."""
        if self.cutoff is not CutOff.HORIZONTAL:
            raise WeatherError(
                f"a cut-off ({self.cutoff}) needs the course of the day, which this method does "
                "not draw; take a triangle or sine method, or the horizontal cut-off."
            )

    def worth(self, curve: DayCurve, low: FloatArray, high: FloatArray) -> FloatArray:
        """Give the heat between the lines, on the mean of the time that the curve is drawn for.

        Parameters
        ----------
        curve : DayCurve
            Draws the temperature between its extremes.
        low, high : float array
            The extremes, the low never above the high. [degrees]

        Returns
        -------
        float array
            Below 0 where the intermediate cut-off takes more than there is. [degree-days]
        """
        heat = curve(low, high, self.base).area
        if self.cap is None:
            return heat
        over = curve(low, high, self.cap)
        match self.cutoff:
            case CutOff.HORIZONTAL:
                return heat - over.area
            case CutOff.INTERMEDIATE:
                return heat - 2 * over.area
            case CutOff.VERTICAL:
                return heat - over.area - (self.cap - self.base) * over.share


def checked_days(tmin: npt.ArrayLike, tmax: npt.ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Give the extremes of days in two arrays of one shape.

    Parameters
    ----------
    tmin, tmax : array, of shapes that go together
        NaN where missing. [degrees]

    Returns
    -------
    (float array, float array)
        Lowest and highest. [degrees]

    Raises
    ------
    WeatherError
        If a lowest is above its highest.
    """
    low, high = np.broadcast_arrays(np.asarray(tmin, np.float64), np.asarray(tmax, np.float64))
    crossed = low > high
    if np.any(crossed):
        raise WeatherError(
            "a day's lowest temperature must not be above its highest, got "
            f"{low[crossed][0]:g} and {high[crossed][0]:g} ({np.sum(crossed)} such days)."
        )
    return low, high
