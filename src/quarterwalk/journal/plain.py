"""Bodies of entries to JSON values and back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any

from quarterwalk.journal import body as forms
from quarterwalk.journal.body import Body, DeviceCount, Kind
from quarterwalk.walk import InsectCount, Method, Quadrant, Sites, SquareCount

FORMS: Mapping[Kind, type[Body]] = {
    Kind.WALK_OPENED: forms.WalkOpened,
    Kind.PLANT_CHECKED: forms.PlantChecked,
    Kind.PLANT_SKIPPED: forms.PlantSkipped,
    Kind.SIGHTED: forms.Sighted,
    Kind.QUADRANT_NOTED: forms.QuadrantNoted,
    Kind.STRUCK: forms.Struck,
    Kind.HANDED_OVER: forms.HandedOver,
    Kind.WALK_CLOSED: forms.WalkClosed,
    Kind.NOTE: forms.Note,
}
KINDS = {form: kind for kind, form in FORMS.items()}


def kind_of(body: Body) -> Kind:
    """Say what kind of entry a body makes."""
    return KINDS[type(body)]


def body_from(kind: Kind, content: Mapping[str, Any]) -> Body:
    """Make a body of JSON that is known to have the published form."""
    return FORMS[kind](**{key: _value(key, value) for key, value in content.items()})


def body_to(body: Body) -> dict[str, Any]:
    """Give a body as JSON holds it; what is None is left out."""
    return _object(body)


def _standing(content: Mapping[str, Any]) -> forms.Standing:
    # its counts are sums, not those of one plant
    lean = forms.Lean(content["lean"]) if "lean" in content else None
    return forms.Standing(**{**content, "lean": lean})


def _entries(counts: int | Mapping[str, int]) -> int | tuple[DeviceCount, ...]:
    if isinstance(counts, int):
        return counts
    return tuple(DeviceCount(device, count) for device, count in counts.items())


# A key means the same in every kind that has it, but for the number or the numbers of entries.
READ: Mapping[str, Callable[[Any], Any]] = {
    "method": Method,
    "sites": Sites,
    "source": forms.Source,
    "gate": lambda content: forms.Gate(**content),
    "quadrant": Quadrant,
    "insects": lambda content: InsectCount(**content),
    "squares": lambda content: SquareCount(**content),
    "on": date.fromisoformat,
    "why": forms.WhySkipped,
    "what": forms.Sight,
    "lost": forms.LostSquares,
    "other_pests": forms.Abundance,
    "branches": tuple,
    "entries": _entries,
    "standing": _standing,
}


def _value(key: str, value: Any) -> Any:
    return READ[key](value) if key in READ else value


def _object(made: Any) -> dict[str, Any]:
    """Write a record key by key, in the order of its parts."""
    given = {part.name: getattr(made, part.name) for part in fields(made)}
    return {key: _plain(value) for key, value in given.items() if value is not None}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        if value and isinstance(value[0], DeviceCount):
            return {count.device: count.entries for count in value}
        return list(value)
    if isinstance(value, date):
        return value.isoformat()
    if is_dataclass(value):
        return _object(value)
    return value
