"""Relative humidity out of temperature and dew point."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

# Saturation vapour pressure rises with exp(17.27 T / (T + 237.3)), T in °C (Allen, Pereira,
# Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, equation 11, from memory).
_RISE, _OFFSET_C = 17.27, 237.3
# Degrees Fahrenheit at the freezing point, and to one degree Celsius; exact. [°F], [°F / °C]
_FREEZING_F, _F_PER_C = 32.0, 1.8
# A dew point above the temperature by no more than this is rounding: both are often given
# in whole degrees. A rule of this project. [°F]
ROUNDING_F = 1.0
_COMPLETE = 100.0


def humidity_from_dew_point(temp_f: FloatArray, dew_point_f: FloatArray) -> FloatArray:
    """Give relative humidity where temperature and dew point are known.

    Parameters
    ----------
    temp_f, dew_point_f : float array, shape (n,)
        Air temperature and dew point; NaN where missing. [°F]

    Returns
    -------
    float array, shape (n,)
        At most 100; NaN where one is missing, or the dew point is above the temperature
        by more than rounding. [%]

    References
    ----------
    Allen, R. G., Pereira, L. S., Raes, D., Smith, M., 1998. Crop evapotranspiration. FAO
    Irrigation and Drainage Paper 56, equations 10, 11 and 14 (from memory).
    """
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):
        exponent = _exponent(dew_point_f) - _exponent(temp_f)
        found = np.minimum(_COMPLETE * np.exp(exponent), _COMPLETE)
    return np.where(dew_point_f > temp_f + ROUNDING_F, np.nan, found)


def _exponent(temp_f: FloatArray) -> FloatArray:
    celsius = (temp_f - _FREEZING_F) / _F_PER_C
    return _RISE * celsius / (celsius + _OFFSET_C)
