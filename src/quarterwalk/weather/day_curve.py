"""The course of a day drawn through its extremes: how long and how far it lies over a line."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from quarterwalk.weather.daily import FloatArray


class Over(NamedTuple):
    """How far and how long the temperature lies over a line.

    Parameters
    ----------
    area : float array
        Degrees over the line, on the mean of the whole time. [degrees]
    share : float array
        Share of the time that lies over the line. [0 to 1]
    """

    area: FloatArray
    share: FloatArray


DayCurve = Callable[[FloatArray, FloatArray, float], Over]
"""Takes the low, the high and the line."""


def triangle_over(low: FloatArray, high: FloatArray, line: float) -> Over:
    """Give what lies over a line where the temperature goes straight between two extremes.

    Going up and coming down are alike, so that one flank stands for the whole day.

    Parameters
    ----------
    low, high : float array
        The extremes, the low never above the high; NaN gives NaN. [degrees]
    line : float
        [degrees]

    Returns
    -------
    Over

    References
    ----------
    Sevacherian, V., Stern, V.M., Mueller, A.J., 1977. Heat accumulation for timing Lygus
    control measures in a safflower-cotton complex. J. Econ. Entomol. 70:399-402 (from memory).
    """
    top, bottom = np.maximum(high - line, 0.0), np.maximum(low - line, 0.0)
    height = high - low
    # a day with one temperature is over the line for the whole day or not at all
    share = np.where(high > line, 1.0, 0.0)
    np.divide(top - bottom, height, out=share, where=height > 0)
    # rounding may carry a share a little past a whole day
    share = np.minimum(share, 1.0)
    return Over((top + bottom) / 2 * share, share)


def sine_over(low: FloatArray, high: FloatArray, line: float) -> Over:
    """Give what lies over a line where the temperature swings as a sine between two extremes.

    Going up and coming down are alike, so that one flank stands for the whole day.

    Parameters
    ----------
    low, high : float array
        The extremes, the low never above the high; NaN gives NaN. [degrees]
    line : float
        [degrees]

    Returns
    -------
    Over

    References
    ----------
    Baskerville, G.L., Emin, P., 1969. Rapid estimation of heat accumulation from maximum and
    minimum temperatures. Ecology 50:514-517 (from memory).
    """
    middle, swing = (low + high) / 2, (high - low) / 2
    # -1 where the whole swing is over the line, 1 where all of it is under
    at = np.where(middle > line, -1.0, 1.0)
    with np.errstate(over="ignore"):  # a swing next to nothing is as good as none
        np.divide(line - middle, swing, out=at, where=swing > 0)
    # a curve that only touches the line must not be told from one that does not by rounding
    at = np.where(high <= line, 1.0, np.where(low >= line, -1.0, np.clip(at, -1.0, 1.0)))
    angle = np.arccos(at)
    area = ((middle - line) * angle + swing * np.sqrt(1.0 - at * at)) / np.pi
    return Over(np.maximum(area, 0.0), angle / np.pi)
