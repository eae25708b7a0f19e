"""Until when nobody may enter a field."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms


class ClosedForm(forms.Form):
    """A day and a time from the label or the sign; none is ever worked out here.

    Parameters
    ----------
    zone : str
        The district's time zone. [IANA name]
    """

    until = forms.DateTimeField(
        label="Closed until",
        help_text="Day and time as the label or the sign at the field says it.",
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
        error_messages={
            "required": "Give the day and the time.",
            "invalid": "Write the day and the time, such as 2026-07-02 07:00.",
        },
    )
    why = forms.CharField(
        label="What it is for",
        help_text="For whoever stands at the gate, such as the product and who sprayed.",
        required=False,
        max_length=120,
    )

    def __init__(self, zone: str, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.zone = zone
        known: datetime | None = self.initial.get("until")
        if known is not None:
            self.initial["until"] = known.astimezone(ZoneInfo(zone)).replace(tzinfo=None)

    def clean_until(self) -> datetime:
        """Read the time as a clock at the field shows it."""
        until: datetime = self.cleaned_data["until"]
        return until.replace(tzinfo=ZoneInfo(self.zone))
