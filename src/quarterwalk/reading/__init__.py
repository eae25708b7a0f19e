"""What a walk says of its field: insects per 100, square set, how sure, how even.

`quarterwalk.reading.clumping` tells from one's own walks how clumped insects are; it is
not loaded here, since a reading does not need it.
"""

from quarterwalk.reading.odds import HIGHEST_LEVEL, BetaOdds, GammaOdds
from quarterwalk.reading.reading import Losses, QuadrantReading, Reading
from quarterwalk.reading.take import take_reading, take_readings

__all__ = [
    "HIGHEST_LEVEL",
    "BetaOdds",
    "GammaOdds",
    "Losses",
    "QuadrantReading",
    "Reading",
    "take_reading",
    "take_readings",
]
