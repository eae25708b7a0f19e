"""The records of a walk: plant checks, walks, and tables of many walks.

Knows nothing but the error tree; see `quarterwalk.files` for the tables' outside forms.
"""

from quarterwalk.walk.check import (
    HIGHEST_NUMBER,
    MOST_A_PLANT,
    MOST_SWEEPS,
    InsectCount,
    PlantCheck,
    RecordError,
    SquareCount,
)
from quarterwalk.walk.kinds import QUADRANTS, Method, Quadrant, Sites
from quarterwalk.walk.table import COUNTS, PlantRows, WalkHead, WalkTable
from quarterwalk.walk.walk import Walk

__all__ = [
    "COUNTS",
    "HIGHEST_NUMBER",
    "MOST_A_PLANT",
    "MOST_SWEEPS",
    "QUADRANTS",
    "InsectCount",
    "Method",
    "PlantCheck",
    "PlantRows",
    "Quadrant",
    "RecordError",
    "Sites",
    "SquareCount",
    "Walk",
    "WalkHead",
    "WalkTable",
]
