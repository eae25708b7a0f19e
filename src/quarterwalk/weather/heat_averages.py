"""Heat units from the mean of a day's extremes, with no course of the day drawn.

What the parameters are, and what comes back, is said at `quarterwalk.weather.heat_units`.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from quarterwalk.weather.daily import FloatArray, WeatherError
from quarterwalk.weather.heat_lines import COTTON_BASE_F, CutOff, Lines, checked_days


def simple_average(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
) -> FloatArray:
    """Take the mean of the extremes, held at the cap, less the base; see `HeatMethod`.

    No course of the day is drawn, so the time over the cap is not known: no cut-off but the
    horizontal has a meaning.
    """
    Lines(base, cap, cutoff).without_curve()
    low, high = checked_days(tmin, tmax)
    mean = (low + high) / 2
    return np.maximum((mean if cap is None else np.minimum(mean, cap)) - base, 0.0)


def held_extremes(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
) -> FloatArray:
    """Hold each extreme between base and cap, then take the mean less the base.

    With base 50 and cap 86 °F this is the 86/50 method of maize (common practice). No cut-off
    but the horizontal has a meaning. See `HeatMethod`.
    """
    Lines(base, cap, cutoff).without_curve()
    low, high = (np.clip(extreme, base, cap) for extreme in checked_days(tmin, tmax))
    return (low + high) / 2 - base


def four_case(
    tmin: npt.ArrayLike,
    tmax: npt.ArrayLike,
    *,
    base: float = COTTON_BASE_F,
    cap: float | None = None,
    cutoff: CutOff = CutOff.HORIZONTAL,
) -> FloatArray:
    """Take one of four formulas by where the base lies among the extremes and their mean.

    It knows no cap. See `HeatMethod`.

    References
    ----------
    Met Éireann, degree-day note (no year given): the formula of national weather services.
    """
    Lines(base, cap, cutoff)
    if cap is not None:
        raise WeatherError(f"the four-case formula knows no cap, got {cap:g}; leave it out.")
    low, high = checked_days(tmin, tmax)
    mean = (low + high) / 2
    cases = [
        (np.isnan(mean), mean),
        (low >= base, mean - base),
        (mean >= base, (high - base) / 2 - (base - low) / 4),
        (high > base, (high - base) / 4),
    ]
    return np.select([case for case, _ in cases], [heat for _, heat in cases], 0.0)
