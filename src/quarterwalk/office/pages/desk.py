"""The page on which a walk is typed in: a grid a quarter, in the order of the paper sheet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.safestring import SafeString

from quarterwalk.office.forms.desk import ROWS, CellFault, DeskForm, cell_name
from quarterwalk.office.models import FieldRow, Person
from quarterwalk.office.pages.drawn import quarter_drawn
from quarterwalk.office.pages.page import FormPage, cancel, to_field
from quarterwalk.walk import COUNTS, QUADRANTS, Quadrant

_STOP = 5  # plants in a row at a stop; a line stands below each [count]


@dataclass(frozen=True, slots=True)
class Cell:
    """One count: its name, what stands in it, and what it is called when heard."""

    name: str
    value: str
    label: str
    wrong: bool


@dataclass(frozen=True, slots=True)
class PlantRow:
    """One plant."""

    plant: int
    ends_stop: bool
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class QuarterGrid:
    """One quarter."""

    name: str
    mark: SafeString
    rows: tuple[PlantRow, ...]


@dataclass(frozen=True, slots=True)
class DeskPage:
    """A walk to be typed in."""

    form: FormPage
    columns: tuple[str, ...]
    quarters: tuple[QuarterGrid, ...]
    faults: tuple[CellFault, ...]
    scouts: tuple[str, ...]


def desk_page(row: FieldRow, form: DeskForm, scouts: Iterable[Person]) -> DeskPage:
    """Lay out the page on which a walk is typed in.

    Parameters
    ----------
    row : FieldRow
        The field.
    form : DeskForm
        With what was typed before.
    scouts : iterable of Person
        Those who walk here, to be chosen from.

    Returns
    -------
    DeskPage
    """
    here = to_field(row.name, row.public_id)
    page = FormPage(
        f"{row.name}: type in a walk",
        "Save the walk",
        said=(
            "Leave a cell empty where nobody looked; 0 means looked, and none there."
            " Tab goes to the next cell.",
        ),
        above=here,
        back=cancel(here),
    )
    wrong = {fault.name for fault in form.cell_faults}
    return DeskPage(
        page,
        COUNTS,
        tuple(_quarter(quadrant, form, wrong) for quadrant in QUADRANTS),
        form.cell_faults,
        tuple(person.name for person in scouts),
    )


def _quarter(quadrant: Quadrant, form: DeskForm, wrong: set[str]) -> QuarterGrid:
    rows = tuple(
        PlantRow(
            plant,
            plant % _STOP == 0,
            tuple(_cell(quadrant, plant, column, form, wrong) for column in COUNTS),
        )
        for plant in range(1, ROWS + 1)
    )
    return QuarterGrid(
        quadrant.value, quarter_drawn(quadrant.value, f"grid-{quadrant.value}"), rows
    )


def _cell(quadrant: Quadrant, plant: int, column: str, form: DeskForm, wrong: set[str]) -> Cell:
    name = cell_name(quadrant, plant, column)
    label = f"{quadrant.value}, plant {plant}, {column}"
    return Cell(name, form.typed(name), label, name in wrong)
