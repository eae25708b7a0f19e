"""Quarterwalk: from a walk of plant checks in squaring cotton to a call.

The names that a notebook needs, and no more. They are loaded when first used, so that
a command that needs none of them starts at once.
"""

from __future__ import annotations

from importlib import import_module as _import_module

# The name that type checkers know; `typing` itself takes longer to load than the rest.
TYPE_CHECKING = False

if TYPE_CHECKING:
    from quarterwalk.call import Call, make_call
    from quarterwalk.crop import CropClock, CropDates, Seen, clock_for, stage_on
    from quarterwalk.field import Field, Layout, lay_out
    from quarterwalk.files.boundaries import read_fields
    from quarterwalk.files.own_guideline import read_guideline
    from quarterwalk.files.walk_table import read_walks
    from quarterwalk.files.weather_file import read_weather
    from quarterwalk.guideline import load_guideline
    from quarterwalk.reading import Reading, take_reading, take_readings
    from quarterwalk.report import make_report
    from quarterwalk.walk import Walk
    from quarterwalk.weather import weather_for

__version__ = "0.1.0"

_HOMES = {
    "Call": "quarterwalk.call",
    "CropClock": "quarterwalk.crop",
    "CropDates": "quarterwalk.crop",
    "Field": "quarterwalk.field",
    "Layout": "quarterwalk.field",
    "Reading": "quarterwalk.reading",
    "Seen": "quarterwalk.crop",
    "Walk": "quarterwalk.walk",
    "clock_for": "quarterwalk.crop",
    "lay_out": "quarterwalk.field",
    "load_guideline": "quarterwalk.guideline",
    "make_call": "quarterwalk.call",
    "make_report": "quarterwalk.report",
    "read_fields": "quarterwalk.files.boundaries",
    "read_guideline": "quarterwalk.files.own_guideline",
    "read_walks": "quarterwalk.files.walk_table",
    "read_weather": "quarterwalk.files.weather_file",
    "stage_on": "quarterwalk.crop",
    "take_reading": "quarterwalk.reading",
    "take_readings": "quarterwalk.reading",
    "weather_for": "quarterwalk.weather",
}

__all__ = [
    "Call",
    "CropClock",
    "CropDates",
    "Field",
    "Layout",
    "Reading",
    "Seen",
    "Walk",
    "__version__",
    "clock_for",
    "lay_out",
    "load_guideline",
    "make_call",
    "make_report",
    "read_fields",
    "read_guideline",
    "read_walks",
    "read_weather",
    "stage_on",
    "take_reading",
    "take_readings",
    "weather_for",
]


def __getattr__(name: str) -> object:
    if name not in _HOMES:
        raise AttributeError(f"quarterwalk has no {name!r}; it has {', '.join(__all__)}.")
    return getattr(_import_module(_HOMES[name]), name)


def __dir__() -> list[str]:
    return list(__all__)
