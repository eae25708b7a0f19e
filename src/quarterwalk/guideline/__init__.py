"""A region's published rules as data, each number with its source, and their shelf."""

from quarterwalk.guideline.page import guideline_json, guideline_page, shelf_page
from quarterwalk.guideline.routine import Routine, Rule, load_routine
from quarterwalk.guideline.rule import (
    CLOSEST_WATCH_WEEKS,
    BlastedShare,
    Floor,
    Guideline,
    HalfLine,
    Line,
    Note,
    SeasonEnd,
    Source,
    SourceKind,
)
from quarterwalk.guideline.shelf import guideline_names, load_guideline

__all__ = [
    "CLOSEST_WATCH_WEEKS",
    "BlastedShare",
    "Floor",
    "Guideline",
    "HalfLine",
    "Line",
    "Note",
    "Routine",
    "Rule",
    "SeasonEnd",
    "Source",
    "SourceKind",
    "guideline_json",
    "guideline_names",
    "guideline_page",
    "load_guideline",
    "load_routine",
    "shelf_page",
]
