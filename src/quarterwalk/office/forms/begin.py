"""What an office begins with."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from zoneinfo import available_timezones

from django import forms
from django.contrib.auth.password_validation import validate_password

# Two that tell no place: a clock that was never set, and whatever this machine goes by.
_NOWHERE = frozenset({"Factory", "localtime"})
_AMERICAN = ("America/", "US/")


def _grouped(zones: Iterable[str]) -> tuple[tuple[str, list[tuple[str, str]]], ...]:
    """Group the names of time zones, those of the Americas first."""
    names = sorted(set(zones) - _NOWHERE)
    first = [name for name in names if name.startswith(_AMERICAN)]
    groups = {"America": first, "Elsewhere": [name for name in names if name not in {*first}]}
    return tuple((title, [(name, name) for name in group]) for title, group in groups.items())


class BeginForm(forms.Form):
    """The first district and its lead."""

    district = forms.CharField(
        label="Name of the district",
        help_text="Fields that are looked after together.",
        max_length=80,
        error_messages={"required": "Give the district a name."},
    )
    time_zone = forms.ChoiceField(
        label="Time zone",
        help_text="That of the fields: it says which day it is there.",
        error_messages={"required": "Choose the time zone of the fields."},
    )
    name = forms.CharField(
        label="Your name",
        max_length=80,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": "Type your name."},
    )
    sign_in_name = forms.CharField(
        label="Your sign-in name",
        help_text="Letters and digits, without spaces.",
        max_length=60,
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
        error_messages={"required": "Choose a sign-in name."},
    )
    password = forms.CharField(
        label="Your password",
        help_text="At least 10 characters, not only digits, and not a common password.",
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        error_messages={"required": "Choose a password."},
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        zones: Any = self.fields["time_zone"]
        zones.choices = [("", "Choose"), *_grouped(available_timezones())]

    def clean_password(self) -> str:
        """See that the password is not too easy."""
        password = str(self.cleaned_data["password"])
        validate_password(password)
        return password
