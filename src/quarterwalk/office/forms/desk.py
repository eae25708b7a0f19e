"""A walk from a paper sheet: 25 plants a quarter, a blank for what nobody looked at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from django import forms

from quarterwalk.files.cells import FAR_YEAR_HINT, FIRST_YEAR, whole
from quarterwalk.files.coded import Misread
from quarterwalk.walk import (
    COUNTS,
    MOST_A_PLANT,
    QUADRANTS,
    InsectCount,
    PlantCheck,
    Quadrant,
    SquareCount,
)

ROWS = 25
"""Plants of a quarter in a full walk; the paper sheet has as many rows. [count]"""

_read = whole(0, MOST_A_PLANT)


@dataclass(frozen=True, slots=True)
class CellFault:
    """One cell that can't be read."""

    name: str
    quadrant: str
    plant: int
    column: str
    text: str

    @property
    def said(self) -> str:
        """The place and what is wrong there, as a sentence."""
        return f"{self.quadrant}, plant {self.plant}, {self.column}: {self.text}"


def cell_name(quadrant: Quadrant, plant: int, column: str) -> str:
    """Name the cell of a plant's count.

    Parameters
    ----------
    quadrant : Quadrant
        Which quarter.
    plant : int
        Which row. [from 1]
    column : str
        One of `quarterwalk.walk.COUNTS`. [text]

    Returns
    -------
    str
    """
    return f"{quadrant.value}-{plant}-{column}"


class DeskForm(forms.Form):
    """Who walked when; the counts are read beside it.

    Parameters
    ----------
    today : date
        The day in the district.
    """

    on = forms.DateField(
        label="Day of the walk",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={
            "required": "Give the day of the walk.",
            "invalid": "Write the day as year-month-day, such as 2026-07-01.",
        },
    )
    scout = forms.CharField(
        label="Who walked",
        max_length=80,
        widget=forms.TextInput(attrs={"list": "scouts"}),
        error_messages={"required": "Say who walked."},
    )

    def __init__(self, today: date, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.cell_faults: tuple[CellFault, ...] = ()
        self.checks: tuple[PlantCheck, ...] = ()

    @property
    def walk(self) -> dict[str, Any]:
        """What `enter_walk` is given."""
        return {**self.cleaned_data, "checks": self.checks}

    def typed(self, name: str) -> str:
        """Give what stands in a cell."""
        return str(self.data.get(name, "")).strip() if self.is_bound else ""

    def clean_on(self) -> date:
        """See that the day is not still to come, and its year no slip of the pen."""
        on: date = self.cleaned_data["on"]
        if on.year < FIRST_YEAR:
            raise forms.ValidationError(FAR_YEAR_HINT)
        if on > self.today:
            raise forms.ValidationError(f"The day must not be after today, {self.today}.")
        return on

    def clean(self) -> dict[str, Any]:
        """Read the counts of every plant."""
        super().clean()
        checks: list[PlantCheck] = []
        faults: list[CellFault] = []
        for quadrant in QUADRANTS:
            for plant in range(1, ROWS + 1):
                counts, wrong = self._row(quadrant, plant)
                faults += wrong
                checks += _check(quadrant, plant, counts)
        self.checks, self.cell_faults = tuple(checks), tuple(faults)
        if faults:
            self.add_error(None, "Some counts can't be read.")
        elif not checks:
            self.add_error(None, "No plant has a count yet.")
        return self.cleaned_data

    def _row(self, quadrant: Quadrant, plant: int) -> tuple[list[int | None], list[CellFault]]:
        counts: list[int | None] = []
        faults: list[CellFault] = []
        for column in COUNTS:
            name = cell_name(quadrant, plant, column)
            typed = self.typed(name)
            try:
                counts.append(_read(typed))
            except Misread as wrong:
                text = f'must be {wrong.expected}, got "{typed}". {wrong.hint}'.strip()
                faults.append(CellFault(name, quadrant.value, plant, column, text))
                counts.append(None)
        return counts, faults


def _check(quadrant: Quadrant, plant: int, counts: list[int | None]) -> Iterator[PlantCheck]:
    """Make a plant's check; blanks beside a count of the same kind are none found."""
    insects, squares = counts[:2], counts[2:]
    if all(count is None for count in counts):
        return
    yield PlantCheck(
        quadrant=quadrant,
        plant=plant,
        insects=InsectCount(*_zeros(insects)) if _any(insects) else None,
        squares=SquareCount(*_zeros(squares)) if _any(squares) else None,
    )


def _any(counts: list[int | None]) -> bool:
    return any(count is not None for count in counts)


def _zeros(counts: list[int | None]) -> list[int]:
    return [count or 0 for count in counts]
