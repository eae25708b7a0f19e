"""The field: its boundary, its four quadrants, its stops and its loops."""

from quarterwalk.field.area import acres_of, hectares_of, metres_along
from quarterwalk.field.field import Field, Place
from quarterwalk.field.frame import Frame
from quarterwalk.field.lay_out import DEFAULT_PLAN, Plan, lay_out
from quarterwalk.field.layout import Layout, Loop, Stop

__all__ = [
    "DEFAULT_PLAN",
    "Field",
    "Frame",
    "Layout",
    "Loop",
    "Place",
    "Plan",
    "Stop",
    "acres_of",
    "hectares_of",
    "lay_out",
    "metres_along",
]
