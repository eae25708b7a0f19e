"""The dates of a field's season, as the lead knows them."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from quarterwalk.office.queries.field import SeasonTold
from quarterwalk.office.services.fields import SeasonDates


def _day(label: str, help_text: str = "") -> forms.DateField:
    return forms.DateField(
        label=label,
        help_text=help_text,
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={"invalid": "Write the day as year-month-day, such as 2026-06-20."},
    )


_DAYS = ("planted", "replanted", "first_square", "first_square_latest", "bloom")
_KEPT = ("variety", "water", "seed_treatment", "hail")


class DatesForm(forms.Form):
    """Planting, first square, bloom, and the days of treatments.

    Parameters
    ----------
    told : SeasonTold
        What is known already.
    """

    planted = _day("Planted")
    replanted = _day("Planted again", "Only where the field was replanted.")
    first_square = _day(
        "First square",
        "The day, or the first day it may have been. Empty where nobody saw it: it is worked out"
        " from planting where the district has weather.",
    )
    first_square_latest = _day(
        "First square, at the latest", "Only where the day is not known exactly."
    )
    bloom = _day("First bloom", "Leave this empty until a bloom is seen.")

    def __init__(self, told: SeasonTold, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.told = told
        for name in _DAYS:
            self.fields[name].initial = getattr(told.season, name, None)
        for place, day in enumerate((*told.treated, None)):
            name = f"treated_{place}"
            self.fields[name] = _day("Treated on" if day else "Treated on, one more")
            self.fields[name].initial = day

    @property
    def dates(self) -> SeasonDates:
        """The season's dates; what the form does not ask for stays as it was."""
        days: dict[str, Any] = {name: self.cleaned_data[name] for name in _DAYS}
        kept: dict[str, Any] = {name: getattr(self.told.season, name, "") for name in _KEPT}
        return SeasonDates(**days, **kept)

    @property
    def treated(self) -> tuple[date, ...]:
        """The days of treatments, in order."""
        given = (day for name, day in self.cleaned_data.items() if name.startswith("treated_"))
        return tuple(sorted({day for day in given if day is not None}))
