"""A district: fields under one lead's care, and the people with a part in it."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.ids import new_id
from quarterwalk.office.models.people import Person


class Role(models.TextChoices):
    """What somebody may do in one district."""

    LEAD = "lead", "lead"
    SCOUT = "scout", "scout"
    GROWER = "grower", "grower"


class District(models.Model):
    """Fields that are looked after together."""

    public_id = models.CharField(max_length=8, unique=True, default=new_id, editable=False)
    name = models.CharField(max_length=80)
    time_zone = models.CharField(max_length=60, default="UTC")
    contact = models.CharField(max_length=120, blank=True)
    is_demo = models.BooleanField(default=False)
    stopping = models.CharField(max_length=12, blank=True, default="")  # empty: no early end

    def __str__(self) -> str:
        return self.name


class Grower(models.Model):
    """Who decides whether a field is sprayed; they need not sign in."""

    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="growers")
    name = models.CharField(max_length=200)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["district", "name"], name="one_grower_a_name"),
        ]

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    """The part that one person has in one district; without one they are a stranger there."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="memberships")
    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=6, choices=Role.choices)
    grower = models.ForeignKey(
        Grower, null=True, blank=True, on_delete=models.PROTECT, related_name="memberships"
    )

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["person", "district"], name="one_part_a_person"),
            models.CheckConstraint(
                condition=models.Q(role=Role.GROWER, grower__isnull=False)
                | (~models.Q(role=Role.GROWER) & models.Q(grower__isnull=True)),
                name="a_grower_role_names_its_grower",
            ),
        ]
