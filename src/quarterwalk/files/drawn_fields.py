"""From features as they were drawn to fields, each mended and named."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import TypeVar

from shapely import MultiPolygon

from quarterwalk.errors import Problem
from quarterwalk.field import Field, Place
from quarterwalk.field.area import metres_from
from quarterwalk.field.mend import mend
from quarterwalk.field.rings import NoField
from quarterwalk.files.coded import Misread
from quarterwalk.files.drawn import Drawn, Layer
from quarterwalk.files.refusal import GEOMETRY
from quarterwalk.files.said_of_field import GATE_EXPECTED, gate, on_globe, rows, short_name
from quarterwalk.words import language_spoken, phrase, phrase_for

FARTHEST_GATE_M = 1_000
"""How far a gate may lie from its field. Farther, it is another field's, or a slip (this
project's rule). [m]"""

Value = TypeVar("Value")


@dataclass(slots=True)
class Gathered:
    """Fields of all layers so far, what is worth saying, and what is wrong."""

    fields: list[Field] = field(default_factory=list)
    notices: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    _where: dict[str, str] = field(default_factory=dict)
    _count: int = 0

    def add(self, layer: Layer) -> None:
        """Take the fields of a layer, in longitude and latitude."""
        self.notices += layer.notices
        if layer.left_out:
            self.notices.append(_left_out(layer))
        turned = 0
        for drawn in layer.drawn:
            self._count += 1
            maker = _Maker(layer.file, drawn, f"field-{self._count}")
            made = maker.made()
            self.problems += [*self._twin(layer.file, drawn, maker.name), *maker.problems]
            self.notices += maker.notices
            turned += maker.turned
            if made is not None:
                self.fields.append(made)
        if turned:
            self.notices.append(_turned(layer.file, turned))

    def _twin(self, file: str, drawn: Drawn, name: str) -> list[Problem]:
        """Refuse a second field of a name, for names head walks."""
        before = self._where.setdefault(name, f"row {drawn.row} of {file}")
        if before == f"row {drawn.row} of {file}":
            return []
        return [
            Problem(
                file,
                drawn.row,
                "name",
                name,
                f"a name that no other field has ({before} has it)",
                "Walks are headed by the name of their field. Give one of the two another.",
            )
        ]


def _left_out(layer: Layer) -> str:
    return phrase_for(
        layer.left_out,
        "{file}: {count} feature that is no area (a point, a line) was left out.",
        "{file}: {count} features that are no areas (points, lines) were left out.",
        file=layer.file,
    )


def _turned(file: str, count: int) -> str:
    return phrase_for(
        count,
        "{file}: rings of {count} field ran the other way round than GeoJSON has it and were "
        "turned; its land is the same.",
        "{file}: rings of {count} fields ran the other way round than GeoJSON has it and were "
        "turned; their land is the same.",
        file=file,
    )


class _Maker:
    """Makes one field, and gathers what is wrong with it and what was done."""

    def __init__(self, file: str, drawn: Drawn, number: str) -> None:
        self._file, self._drawn = file, drawn
        self.problems: list[Problem] = []
        self.notices: list[str] = []
        self.turned = False
        said = drawn.said
        key, text = ("name", said.name) if said.name else ("id", said.id)
        self.name = self._read(key, text, short_name) or number

    def made(self) -> Field | None:
        """Give the field; None where something is wrong."""
        said = self._drawn.said
        way = self._read("rows", said.rows, rows)
        grower = self._read("grower", said.grower, short_name) or ""
        farm = self._read("farm", said.farm, short_name) or ""
        entry = self._read("gate", said.gate, gate)
        shape = self._shape()
        if shape is not None and entry is not None:
            entry = self._near(shape, entry)
        if shape is None or self.problems:
            return None
        return Field(self.name, shape, entry, way, grower, farm)

    def _read(self, column: str, text: str, read: Callable[[str], Value]) -> Value | None:
        try:
            return read(text)
        except Misread as fault:
            self._refuse(column, text, fault.expected, fault.hint)
            return None

    def _refuse(self, column: str, value: str, expected: str, hint: str = "") -> None:
        row = self._drawn.row
        self.problems.append(Problem(self._file, row, column, value, expected, hint))

    def _shape(self) -> MultiPolygon | None:
        try:
            mended = mend(self._drawn.parts, language=language_spoken())
        except NoField as fault:
            self._refuse(GEOMETRY, fault.value, fault.expected, fault.hint)
            return None
        self._tell(mended.done)
        self.turned = mended.turned
        return mended.shape

    def _tell(self, done: Iterable[str]) -> None:
        for sentence in done:
            self.notices.append(
                phrase(
                    "{file}, field {field}: {done}",
                    file=self._file,
                    field=self.name,
                    done=sentence,
                )
            )

    def _near(self, shape: MultiPolygon, place: Place) -> Place | None:
        """Give the gate if it lies near its field, as written or the other way round."""
        if on_globe(place) and metres_from(shape, place) <= FARTHEST_GATE_M:
            return place
        other = place[1], place[0]
        if on_globe(other) and metres_from(shape, other) <= FARTHEST_GATE_M:
            self._tell(
                [
                    phrase(
                        "longitude and latitude of its gate stood the wrong way round; they were "
                        "swapped."
                    )
                ]
            )
            return other
        expected, hint = f"a place within {FARTHEST_GATE_M:,} m of its field", ""
        if on_globe(place):
            hint = f"It lies {metres_from(shape, place) / 1000:,.1f} km from it."
        self._refuse("gate", self._drawn.said.gate, expected, hint or GATE_EXPECTED)
        return None
