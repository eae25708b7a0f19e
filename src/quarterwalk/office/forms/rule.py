"""Which guideline a field is judged by, and by which line inside its range."""

from __future__ import annotations

from typing import Any

from django import forms

from quarterwalk.call import check_line
from quarterwalk.call.figures import exact, number
from quarterwalk.errors import LineOutsideRange
from quarterwalk.guideline import Guideline, guideline_names, load_guideline
from quarterwalk.guideline.page import SHORT_SEASONS


class RuleForm(forms.Form):
    """A guideline from the shelf, none of them a default, and a line."""

    guideline = forms.ChoiceField(
        label="Guideline",
        widget=forms.RadioSelect,
        error_messages={"required": "Choose the guideline of your region."},
    )
    line = forms.CharField(
        label="Line, insects per 100",
        help_text="Leave this empty to use the lower end of the published range.",
        required=False,
        max_length=20,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "class": "number"}),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        rules = [load_guideline(name) for name in guideline_names()]
        self.fields["guideline"].choices = [(r.name, _told(r)) for r in rules]  # type: ignore[attr-defined]

    def clean_line(self) -> str:
        """Read the line as an exact number, written as it is published."""
        text = str(self.cleaned_data["line"]).strip()
        if not text:
            return ""
        try:
            return number(exact(text))
        except ValueError:
            raise forms.ValidationError(
                f'The line must be a number such as 25, got "{text}".'
            ) from None

    def clean(self) -> dict[str, Any]:
        """See that the line lies inside what the guideline publishes."""
        super().clean()
        name, line = self.cleaned_data.get("guideline"), self.cleaned_data.get("line")
        if name and line:
            try:
                check_line(load_guideline(name), exact(line))
            except LineOutsideRange as outside:
                self.add_error("line", _outside(outside))
        return self.cleaned_data


def _outside(outside: LineOutsideRange) -> str:
    return f"The line must be {outside.allowed} by this guideline, got {outside.line}."


def _told(rule: Guideline) -> str:
    """Name a guideline by its region, its line and its season."""
    unit = "sweeps" if rule.method == "sweep" else "plants"
    lines = ", then ".join(
        number(line.low) if line.low == line.high else f"{number(line.low)} to {number(line.high)}"
        for line in rule.lines
    )
    season = SHORT_SEASONS[rule.season_end].replace("-", " to ")
    return f"{rule.region}: line {lines} per 100 {unit}, {season}"
