"""What a lead decides of an entry that waits, and what they confirm before it is done."""

from __future__ import annotations

from django import forms


class DecisionForm(forms.Form):
    """Take an entry or leave it out, with the reason."""

    take_it = forms.ChoiceField(
        choices=[("yes", "Take it"), ("no", "Leave it out")], widget=forms.HiddenInput
    )
    why = forms.CharField(
        label="Reason",
        help_text="One sentence, for whoever asks about it next year.",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": "Say why."},
    )

    def clean_take_it(self) -> bool:
        """Give the decision as yes or no."""
        return bool(self.cleaned_data["take_it"] == "yes")


class SureForm(forms.Form):
    """That a walk no longer counts, or a station goes: nothing to fill in, only to confirm."""

    sure = forms.BooleanField(widget=forms.HiddenInput, initial=True)
