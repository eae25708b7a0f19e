"""How hot air feels in the shade: the heat index.

References
----------
Rothfusz, L. P., 1990, The Heat Index Equation, National Weather Service Southern Region
Technical Attachment SR 90-23 (from memory).
National Weather Service, Weather Prediction Center, The Heat Index Equation (adjustments,
and the simple formula for milder air; from memory).
Steadman, R. G., 1979, The assessment of sultriness, part I, Journal of Applied Meteorology
18:861-873 (what the equation was fitted to; from memory).
"""

from __future__ import annotations

import numpy as np

from quarterwalk.weather.daily import FloatArray, WeatherError

# Rothfusz 1990: factors of T^i·H^j, T down [°F], H across [%]. [°F]
REGRESSION = np.array(
    [
        [-42.379, 10.14333127, -0.05481717],
        [2.04901523, -0.22475541, 0.00085282],
        [-0.00683783, 0.00122874, -0.00000199],
    ]
)
# Weather Prediction Center: where simple formula and temperature average this, the regression
# holds. [°F]
REGRESSION_FROM_F = 80.0
# Weather Prediction Center: dry air takes off up to (13 - H)/4 between 80 and 112 °F, most at
# 95 °F. [%], [%], [°F], [°F]
DRY_UNDER, DRY_STEP = 13.0, 4.0
DRY_MIDDLE_F, DRY_HALF_WIDTH_F = 95.0, 17.0
DRY_SPAN_F = (80.0, 112.0)
# Weather Prediction Center: damp air adds (H - 85)/10 · (87 - T)/5 between 80 and 87 °F.
# [%], [%], [°F], [°F]
DAMP_OVER, DAMP_STEP = 85.0, 10.0
DAMP_SPAN_F = (80.0, 87.0)
DAMP_STEP_F = 5.0


def heat_index(temp_f: FloatArray | float, humidity: FloatArray | float) -> FloatArray:
    """Give how hot air feels in the shade, by the rule of the weather service.

    Parameters
    ----------
    temp_f : float array
        Of the air in the shade. [°F]
    humidity : float array
        Relative. [%]

    Returns
    -------
    float array
        NaN where either is. [°F]

    Raises
    ------
    WeatherError
        If a humidity is not from 0 to 100 %.

    References
    ----------
    Rothfusz 1990; National Weather Service, The Heat Index Equation.
    """
    temp, damp = np.broadcast_arrays(*(np.asarray(a, np.float64) for a in (temp_f, humidity)))
    wrong = damp[(damp < 0) | (damp > 100)]
    if wrong.size:
        raise WeatherError(f"humidity must be from 0 to 100 %, got {wrong[0]:g}.")
    mild = (temp + _simple(temp, damp)) / 2
    hot = np.polynomial.polynomial.polyval2d(temp, damp, REGRESSION)
    return np.where(mild < REGRESSION_FROM_F, mild, hot - _dry(temp, damp) + _damp(temp, damp))


def _simple(temp: FloatArray, damp: FloatArray) -> FloatArray:
    # Weather Prediction Center, after Steadman 1979. [°F]
    return 0.5 * (temp + 61.0 + 1.2 * (temp - 68.0) + 0.094 * damp)


def _dry(temp: FloatArray, damp: FloatArray) -> FloatArray:
    off = np.maximum(DRY_HALF_WIDTH_F - np.abs(temp - DRY_MIDDLE_F), 0.0) / DRY_HALF_WIDTH_F
    low, high = DRY_SPAN_F
    here = (damp < DRY_UNDER) & (temp >= low) & (temp <= high)
    return np.where(here, (DRY_UNDER - damp) / DRY_STEP * np.sqrt(off), 0.0)


def _damp(temp: FloatArray, damp: FloatArray) -> FloatArray:
    low, high = DAMP_SPAN_F
    here = (damp > DAMP_OVER) & (temp >= low) & (temp <= high)
    return np.where(here, (damp - DAMP_OVER) / DAMP_STEP * (high - temp) / DAMP_STEP_F, 0.0)
