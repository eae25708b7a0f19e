"""Forms for getting in."""

from __future__ import annotations

from typing import Any

from allauth.account.forms import LoginForm
from django import forms
from django.contrib.auth.forms import PasswordChangeForm, SetPasswordForm

_LENGTH = "At least 10 characters, not only digits, and not a common password."
_UNLIKE = "The two passwords are not the same."


class SignInForm(LoginForm):  # type: ignore[misc]  # it has no types
    """A name and a password."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["login"] = forms.CharField(
            label="Sign-in name",
            max_length=60,
            widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
            error_messages={"required": "Type your sign-in name."},
        )
        self.fields["password"] = forms.CharField(
            label="Password",
            strip=False,
            widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
            error_messages={"required": "Type your password."},
        )
        self.order_fields(["login", "password"])


class JoinForm(SetPasswordForm):  # type: ignore[type-arg]
    """A first password, or a fresh one, typed twice."""

    error_messages = {"password_mismatch": _UNLIKE}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _worded(self, "Choose a password", "Type it once more")


class PasswordForm(PasswordChangeForm):
    """The password one has, and the one to have."""

    error_messages = {
        "password_mismatch": _UNLIKE,
        "password_incorrect": "That is not your password.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["old_password"].label = "The password you have now"
        self.fields["old_password"].error_messages["required"] = "Type your password."
        _worded(self, "The password you want", "Type it once more")


def _worded(form: forms.BaseForm, first: str, again: str) -> None:
    """Put plain words on the two fields for a password."""
    form.fields["new_password1"].label = first
    form.fields["new_password1"].help_text = _LENGTH
    form.fields["new_password2"].label = again
    form.fields["new_password2"].help_text = ""
    for name in ("new_password1", "new_password2"):
        form.fields[name].error_messages["required"] = "Type the password."
