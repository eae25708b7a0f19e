"""How far the pinch reaches: the line stands where both sides of it can be read."""

from __future__ import annotations

from quarterwalk.picture.measure import Measure
from quarterwalk.picture.scale import Scale

# An axis reaches this many lines from its good end, so that the hatched ground is at
# least as wide as the clear one. [lines]
_USUAL = 2.3
# And at most this many: a field that is far over needs no more room. [lines]
_MOST = 16.0
# A range counts up to this many readings; past it the leaf is cut open. [readings]
_OPEN = 3.0
_SPARE = 1.08  # paper past the tip of a leaf [ratio]
_SPARE_SET = 3.0  # paper past the tip of a leaf of square set [percentage points]


def growing(measure: Measure, start: float, stop: float) -> Scale:
    """Give the axis of a measure that is worse the more there is, from 0 on.

    Parameters
    ----------
    measure : Measure
        With its limit.
    start, stop : float
        Where 0 stands, and where the axis ends. [px]

    Returns
    -------
    Scale
    """
    line = float(measure.limit or 0)
    value = float(measure.value or 0)
    high = min(measure.span[1] if measure.span else value, max(_OPEN * value, _USUAL * line))
    reach = max(_USUAL * line, _SPARE * high)
    reach = min(reach, _MOST * line) if line else reach
    return Scale(0.0, reach or 1.0, start, stop)


def falling(measure: Measure, start: float, stop: float) -> Scale:
    """Give the axis of a share that is worse the less there is, from 100 % down.

    Parameters
    ----------
    measure : Measure
        With its limit.
    start, stop : float
        Where 100 % stands, and where the axis ends. [px]

    Returns
    -------
    Scale
    """
    floor = 100.0 if measure.limit is None else float(measure.limit)
    low = measure.span[0] if measure.span else 100.0
    reach = min(100.0 - _USUAL * (100.0 - floor), low - _SPARE_SET)
    return Scale(100.0, min(max(reach, 0.0), 99.0), start, stop)
