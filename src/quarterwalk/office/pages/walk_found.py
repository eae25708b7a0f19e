"""What was found on a walk: quarter by quarter, on the field's shape, and on the way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from django.utils.safestring import SafeString

from quarterwalk.call.figures import listed, short
from quarterwalk.field import Layout
from quarterwalk.office.models import QuadrantNoteRow, RemarkRow
from quarterwalk.office.pages.days import moment
from quarterwalk.office.pages.drawn import ENGLISH, quarter_drawn, safe_drawing
from quarterwalk.office.services.calls import Judged
from quarterwalk.picture import Theme, field_sketch, found_in
from quarterwalk.reading import QuadrantReading
from quarterwalk.walk import Method, PlantCheck

_SKETCH = (350, 300)  # [px]

# Plants that are named one by one beside the note that they share. [count]
_MOST_NAMED = 3

_SEEN = {
    "host-weeds": "Host weeds",
    "other-pest": "Another pest",
    "natural-enemies": "Natural enemies",
    "standing-water": "Standing water",
    "spray-sign": "A spray sign or flag",
    "note": "Note",
}
_LOST = {
    "none": "no squares lost",
    "small": "small squares lost",
    "large": "large squares lost",
    "both": "small and large squares lost",
}
_PESTS = {"none": "no other pests", "some": "some other pests", "many": "many other pests"}


@dataclass(frozen=True, slots=True)
class QuarterLine:
    """What was found in one quarter."""

    mark: SafeString
    name: str
    insects: str
    squares: str


@dataclass(frozen=True, slots=True)
class Noted:
    """Something that was noted: where or when, and what."""

    where: str
    text: str


def quarter_lines(judged: Judged) -> tuple[QuarterLine, ...]:
    """Tell what was found in each quarter.

    Parameters
    ----------
    judged : Judged
        The walk; a share is never rounded across the floor of its call.

    Returns
    -------
    tuple of QuarterLine
        In compass order.
    """
    reading, floor = judged.reading, None if judged.call is None else judged.call.guideline.floor
    limit = None if floor is None else 100 * floor
    return tuple(_quarter(each, reading.method, limit) for each in reading.quadrants)


def _quarter(found: QuadrantReading, method: Method, floor: Fraction | None) -> QuarterLine:
    looked = found.sweeps if method is Method.SWEEP else found.plants
    share = found.square_set
    return QuarterLine(
        mark=quarter_drawn(found.quadrant.value, f"quarter-{found.quadrant.value}"),
        name=found.quadrant.value,
        insects=f"{found.insects} on {looked}" if looked else "not looked at",
        squares="–" if share is None else f"{short(100 * share, floor)} % of {found.squares}",
    )


def found_sketch(judged: Judged, layout: Layout | None) -> SafeString | str:
    """Draw what was found on the field's shape.

    Parameters
    ----------
    judged : Judged
        The walk.
    layout : Layout or None
        The field.

    Returns
    -------
    SafeString or str
        Empty where the shape is not known.
    """
    if layout is None:
        return ""
    return safe_drawing(
        field_sketch(
            layout,
            theme=Theme.SCREEN,
            width=_SKETCH[0],
            height=_SKETCH[1],
            id="where",
            language=ENGLISH,
            found=found_in(judged.reading),
            way=False,
        )
    )


def notes_of(rows: Iterable[QuadrantNoteRow]) -> tuple[Noted, ...]:
    """Word what was noted once a quarter.

    Parameters
    ----------
    rows : iterable of QuadrantNoteRow
        In the order in which they were made.

    Returns
    -------
    tuple of Noted
    """
    return tuple(Noted(row.quadrant, _noted(row)) for row in rows)


def _noted(row: QuadrantNoteRow) -> str:
    parts = [_LOST.get(row.lost, ""), _PESTS.get(row.other_pests, "")]
    if row.water is not None:
        parts.append("standing water" if row.water else "no standing water")
    if row.branches:
        branches = listed(row.branches.split())
        parts.append(f"fruiting branches on single plants: {branches}")
    said = "; ".join(part for part in parts if part)
    sentence = f"{said[:1].upper()}{said[1:]}." if said else ""
    return " ".join(part for part in (sentence, row.note) if part)


def plants_noted(checks: Iterable[PlantCheck]) -> tuple[Noted, ...]:
    """Word what was noted of single plants; a note of many of them stands once.

    Parameters
    ----------
    checks : iterable of PlantCheck
        In the order of walking.

    Returns
    -------
    tuple of Noted
    """
    places: dict[str, list[str]] = {}
    for check in checks:
        if check.note:
            places.setdefault(check.note, []).append(f"{check.quadrant.value} {check.plant}")
    return tuple(
        Noted(listed(each) if len(each) <= _MOST_NAMED else f"{len(each)} plants", text)
        for text, each in places.items()
    )


def remarks_of(rows: Iterable[RemarkRow], zone: str) -> tuple[Noted, ...]:
    """Word what was seen on the way, and notes.

    Parameters
    ----------
    rows : iterable of RemarkRow
        In the order in which they were made.
    zone : str
        The district's time zone. [IANA name]

    Returns
    -------
    tuple of Noted
    """
    return tuple(Noted(_where(row, zone), _remark(row)) for row in rows)


def _where(row: RemarkRow, zone: str) -> str:
    place = row.quadrant + (f", stop {row.stop}" if row.quadrant and row.stop else "")
    return ", ".join(part for part in (moment(row.at, zone), row.by, place) if part)


def _remark(row: RemarkRow) -> str:
    if row.what == "note":
        return row.text
    seen = _SEEN.get(row.what, "Seen")
    return f"{seen}: {row.text}" if row.text else f"{seen}."
