"""How people sign in: by a name and a password, with too many attempts slowed down."""

from __future__ import annotations

from typing import Any, ClassVar

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest


class Accounts(DefaultAccountAdapter):  # type: ignore[misc]  # it has no types
    """Nobody makes an account for themselves: a lead makes it and hands over a link."""

    error_messages: ClassVar = {
        **DefaultAccountAdapter.error_messages,
        "username_password_mismatch": "The name and the password do not go together.",
        "too_many_login_attempts": "Too many attempts. Wait five minutes, then try again.",
    }

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        """Say no: an account is made by a lead."""
        return False

    def add_message(self, *args: Any, **kwargs: Any) -> None:
        """Say nothing after sign-in and sign-out: the page that follows shows it."""
