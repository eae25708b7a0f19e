"""Walks as their journal entries tell them: a projection, made again by ``rebuild``."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.districts import District
from quarterwalk.office.models.fields import FieldRow


class WalkRow(models.Model):
    """One walk, from the replay of its held entries."""

    walk_id = models.CharField(max_length=32, primary_key=True)
    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="walks")
    field = models.ForeignKey(FieldRow, null=True, on_delete=models.CASCADE, related_name="walks")
    state = models.CharField(max_length=11)
    on = models.DateField(null=True)
    opened_at = models.DateTimeField(null=True)
    closed_at = models.DateTimeField(null=True)
    source = models.CharField(max_length=5, blank=True)
    method = models.CharField(max_length=11, blank=True)
    sites = models.CharField(max_length=4, blank=True)
    label = models.CharField(max_length=80, blank=True)
    plan = models.CharField(max_length=128, blank=True)
    card = models.CharField(max_length=64, blank=True)
    scouts = models.TextField(blank=True)
    plants = models.PositiveIntegerField(default=0)
    waiting = models.PositiveIntegerField(default=0)
    doubled = models.PositiveIntegerField(default=0)
    unusable = models.PositiveIntegerField(default=0)
    standing = models.TextField(blank=True)


class CheckRow(models.Model):
    """One plant of a walk, in its place in the walk."""

    walk = models.ForeignKey(WalkRow, on_delete=models.CASCADE, related_name="checks")
    position = models.PositiveIntegerField()
    device_id = models.CharField(max_length=12)
    seq = models.BigIntegerField()
    on = models.DateField()
    scout = models.CharField(max_length=90, blank=True)  # two of one name get a number
    quadrant = models.CharField(max_length=2)
    stop = models.PositiveIntegerField(null=True)
    plant = models.PositiveIntegerField()
    adults = models.PositiveSmallIntegerField(null=True)
    nymphs = models.PositiveSmallIntegerField(null=True)
    healthy = models.PositiveSmallIntegerField(null=True)
    missing = models.PositiveSmallIntegerField(null=True)
    blasted = models.PositiveSmallIntegerField(null=True)
    flared = models.PositiveSmallIntegerField(null=True)
    sweeps = models.PositiveIntegerField(null=True)
    skipped = models.BooleanField(default=False)
    why = models.CharField(max_length=8, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering: ClassVar = ["walk_id", "position"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["walk", "position"], name="one_plant_a_position"),
        ]


class QuadrantNoteRow(models.Model):
    """What was noted once of one quarter."""

    walk = models.ForeignKey(WalkRow, on_delete=models.CASCADE, related_name="quadrant_notes")
    position = models.PositiveIntegerField()
    quadrant = models.CharField(max_length=2)
    lost = models.CharField(max_length=5, blank=True)
    water = models.BooleanField(null=True)
    other_pests = models.CharField(max_length=4, blank=True)
    branches = models.CharField(max_length=20, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering: ClassVar = ["walk_id", "position"]


class RemarkRow(models.Model):
    """Something seen on the way, or a note; with a walk or without."""

    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="remarks")
    walk = models.ForeignKey(WalkRow, null=True, on_delete=models.CASCADE, related_name="remarks")
    field = models.ForeignKey(FieldRow, null=True, on_delete=models.CASCADE, related_name="remarks")
    device_id = models.CharField(max_length=12)
    seq = models.BigIntegerField()
    at = models.DateTimeField()
    by = models.CharField(max_length=80, blank=True)
    what = models.CharField(max_length=20)
    quadrant = models.CharField(max_length=2, blank=True)
    stop = models.PositiveIntegerField(null=True)
    text = models.CharField(max_length=2000, blank=True)

    class Meta:
        ordering: ClassVar = ["at", "device_id", "seq"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["device_id", "seq"], name="one_remark_a_key"),
        ]
