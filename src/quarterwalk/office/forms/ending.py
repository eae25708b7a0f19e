"""For what the walks of a district may end early."""

from __future__ import annotations

from django import forms

from quarterwalk.plan import Stopping

_OFF = "off"
_WAYS = [
    (_OFF, "Off: every walk is finished"),
    (Stopping.HOLD_ONLY.value, "Only to hold: where little is found the walk may end"),
    (Stopping.EITHER_WAY.value, "Either way: also where so much is found that the call is treat"),
]


class EndingForm(forms.Form):
    """Off, or one of two ways; nothing else changes with it."""

    stopping = forms.ChoiceField(
        label="When a walk may end early",
        choices=_WAYS,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose one."},
    )

    def clean_stopping(self) -> Stopping | None:
        """Give the way, or nothing where it is off."""
        chosen = self.cleaned_data["stopping"]
        return None if chosen == _OFF else Stopping(chosen)


def begun_with(stopping: Stopping | None) -> dict[str, str]:
    """Give what the form begins with.

    Parameters
    ----------
    stopping : Stopping or None
        What holds now.

    Returns
    -------
    dict
        By the names of the form's fields.
    """
    return {"stopping": _OFF if stopping is None else stopping.value}
