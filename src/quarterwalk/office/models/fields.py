"""Fields, and what is known of each one's season."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.districts import District, Grower
from quarterwalk.office.models.ids import new_id


class FieldRow(models.Model):
    """One field: its boundary as it was handed in, and how it is judged.

    `boundary` is GeoJSON geometry text, kept to the last digit: the stops of a day hang on
    the exact coordinates, and sheet, phone and office must lay out the same ones.
    """

    public_id = models.CharField(max_length=8, unique=True, default=new_id, editable=False)
    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="fields")
    name = models.CharField(max_length=200)
    farm = models.CharField(max_length=200, blank=True)
    grower = models.ForeignKey(
        Grower, null=True, blank=True, on_delete=models.PROTECT, related_name="fields"
    )
    boundary = models.TextField()
    acres = models.FloatField()
    gate_longitude = models.FloatField(null=True)
    gate_latitude = models.FloatField(null=True)
    rows = models.FloatField(null=True)
    guideline = models.CharField(max_length=60, blank=True)
    line = models.CharField(max_length=20, blank=True)
    closed_until = models.DateTimeField(null=True, blank=True)
    closed_why = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering: ClassVar = ["name"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["district", "name"], name="one_field_a_name"),
        ]

    def __str__(self) -> str:
        return self.name


class SeasonRow(models.Model):
    """One field's dates in one season: one planting, from planting to bloom."""

    field = models.ForeignKey(FieldRow, on_delete=models.CASCADE, related_name="seasons")
    year = models.PositiveSmallIntegerField()
    planted = models.DateField(null=True, blank=True)
    first_square = models.DateField(null=True, blank=True)
    first_square_latest = models.DateField(null=True, blank=True)
    bloom = models.DateField(null=True, blank=True)
    variety = models.CharField(max_length=80, blank=True)
    water = models.CharField(max_length=40, blank=True)
    seed_treatment = models.CharField(max_length=80, blank=True)
    replanted = models.DateField(null=True, blank=True)
    hail = models.CharField(max_length=120, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["field", "year"], name="one_season_a_year"),
        ]


class Treatment(models.Model):
    """A day on which something was sprayed on a field against the insects."""

    field = models.ForeignKey(FieldRow, on_delete=models.CASCADE, related_name="treatments")
    on = models.DateField()

    class Meta:
        ordering: ClassVar = ["on"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["field", "on"], name="one_treatment_a_day"),
        ]
