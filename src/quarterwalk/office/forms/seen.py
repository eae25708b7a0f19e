"""What somebody saw of a field's crop, besides a walk."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from quarterwalk.crop import Seen
from quarterwalk.files.cells import FAR_YEAR_HINT, FIRST_YEAR, LAST_YEAR
from quarterwalk.files.seen_table import row_faults

# A plant has no more main-stem nodes at the end of a season (from memory). [count]
_MOST_COUNTED = 30
# More plants than anybody looks at on a day (a rule of this project). [count]
_MOST_PLANTS = 9999

_COUNTS = ("true_leaves", "nodes", "plants", "pinhead", "squaring_branches", "nawf")
_FLOWERS = {"yes": True, "no": False}


def _mean(label: str, help_text: str) -> forms.FloatField:
    wrong = f"Write a number from 0 to {_MOST_COUNTED}, such as 4 or 4.5."
    return forms.FloatField(
        label=label,
        help_text=help_text,
        required=False,
        min_value=0,
        max_value=_MOST_COUNTED,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "class": "number"}),
        error_messages={"invalid": wrong, "min_value": wrong, "max_value": wrong},
    )


def _plants(label: str, help_text: str, least: int) -> forms.IntegerField:
    wrong = f"Write a whole number from {least} to {_MOST_PLANTS}."
    return forms.IntegerField(
        label=label,
        help_text=help_text,
        required=False,
        min_value=least,
        max_value=_MOST_PLANTS,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "class": "number"}),
        error_messages={"invalid": wrong, "min_value": wrong, "max_value": wrong},
    )


class SeenForm(forms.Form):
    """Counts that tell where the crop stands; what was not looked at stays empty."""

    on = forms.DateField(
        label="Day",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={
            "required": "Give the day.",
            "invalid": "Write the day as year-month-day, such as 2026-06-20.",
        },
    )
    true_leaves = _mean(
        "True leaves", "Mean of some plants, before squares come. The two seed leaves do not count."
    )
    nodes = _mean("Main-stem nodes", "Mean of some plants, counted from above the seed leaves.")
    plants = _plants("Plants looked at", "How many, across the whole field.", 1)
    pinhead = _plants(
        "Plants with a square", "How many of them have one of pinhead size or larger.", 0
    )
    squaring_branches = _mean(
        "Squaring branches",
        "Mean fruiting branches of a plant with a square, or the scar of one that was lost: five"
        " plants in each quarter will do.",
    )
    bloom = forms.ChoiceField(
        label="White flowers",
        required=False,
        choices=[("", "Did not look"), ("no", "None yet"), ("yes", "They stand in the field")],
        widget=forms.RadioSelect,
    )
    nawf = _mean(
        "Nodes above white flower",
        "Mean nodes above the uppermost white flower that stands next to the main stem.",
    )

    def clean(self) -> dict[str, Any]:
        """See that plants looked at and plants with a square go together, as a table must."""
        told: dict[str, Any] = super().clean() or self.cleaned_data
        if not self.errors:
            counts = {name: told[name] for name in _COUNTS}
            faults = row_faults({**counts, "bloom": _FLOWERS.get(told["bloom"])})
            if "plants" in faults:
                self.add_error("plants", "Say how many plants were looked at.")
            if "pinhead" in faults:
                self.add_error(
                    "pinhead", f"At most the {told['plants']} plants that were looked at."
                )
        return told

    def clean_on(self) -> date:
        """Refuse a year that is a slip of the pen."""
        on: date = self.cleaned_data["on"]
        if not FIRST_YEAR <= on.year <= LAST_YEAR:
            raise forms.ValidationError(FAR_YEAR_HINT)
        return on

    @property
    def seen(self) -> Seen:
        """What was seen."""
        counts: dict[str, Any] = {name: self.cleaned_data[name] for name in _COUNTS}
        if counts["pinhead"] is None:
            counts["plants"] = None  # they say nothing of squares
        on: date = self.cleaned_data["on"]
        return Seen(on, bloom=_FLOWERS.get(self.cleaned_data["bloom"]), **counts)

    @property
    def looked_at(self) -> int | None:
        """Plants that were looked at, for squares or for other counts."""
        plants: int | None = self.cleaned_data["plants"]
        return plants
