"""What people saw of a field's crop, besides walks: struck where it was wrong, never edited."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.fields import FieldRow
from quarterwalk.office.models.people import Person


class SeenRow(models.Model):
    """What one person saw of one field on one day; null where they did not look."""

    field = models.ForeignKey(FieldRow, on_delete=models.CASCADE, related_name="seen")
    on = models.DateField()
    true_leaves = models.FloatField(null=True)
    nodes = models.FloatField(null=True)
    plants = models.PositiveIntegerField(null=True)
    pinhead = models.PositiveIntegerField(null=True)
    squaring_branches = models.FloatField(null=True)
    bloom = models.BooleanField(null=True)
    nawf = models.FloatField(null=True)
    note = models.TextField(blank=True, default="")
    by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    struck_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    struck_at = models.DateTimeField(null=True)

    class Meta:
        ordering: ClassVar = ["on", "pk"]
