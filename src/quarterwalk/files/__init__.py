"""Every outside format, in and out: walk tables, plantings, guideline files, calls."""

from quarterwalk.files.call_json import CALL_COLUMNS, call_rows, refusal_json, walk_json
from quarterwalk.files.own_guideline import read_guideline
from quarterwalk.files.plantings import Planting, PlantingFile, read_plantings
from quarterwalk.files.walk_json import walks_from_json, walks_to_json
from quarterwalk.files.walk_table import WalkFile, read_walks
from quarterwalk.files.walk_writer import write_walks

__all__ = [
    "CALL_COLUMNS",
    "Planting",
    "PlantingFile",
    "WalkFile",
    "call_rows",
    "read_guideline",
    "read_plantings",
    "read_walks",
    "refusal_json",
    "walk_json",
    "walks_from_json",
    "walks_to_json",
    "write_walks",
]
