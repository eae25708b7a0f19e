"""People who sign in, and the one-time links that let them in the first time."""

from __future__ import annotations

from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models.functions import Lower

from quarterwalk.office.models.ids import new_id


class PersonManager(BaseUserManager["Person"]):
    """Finds people by their sign-in name, in any letter case."""

    def get_by_natural_key(self, username: str | None) -> Person:
        """Find the person who signs in by a name."""
        return self.get(sign_in_name__iexact=username)


class Person(AbstractBaseUser):
    """Somebody who signs in; what they may do is said by their `Membership` of a district."""

    public_id = models.CharField(max_length=8, unique=True, default=new_id, editable=False)
    sign_in_name = models.CharField(max_length=60, unique=True)
    name = models.CharField(max_length=80)
    is_active = models.BooleanField(default=True)

    USERNAME_FIELD = "sign_in_name"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name"]

    objects = PersonManager()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(Lower("sign_in_name"), name="one_sign_in_name_in_any_case"),
        ]

    def __str__(self) -> str:
        return self.name


class SignInLink(models.Model):
    """A link that signs one person in: once, to choose a password; in the demo, again and again.

    Only the token's SHA-256 is kept.
    """

    token_hash = models.CharField(max_length=64, unique=True)
    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="links")
    made_at = models.DateTimeField()
    ends_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)
    lasting = models.BooleanField(default=False)
