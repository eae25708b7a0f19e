"""Devices that write journal entries: phones that somebody paired, and the office's own."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.districts import District
from quarterwalk.office.models.ids import new_device_id
from quarterwalk.office.models.people import Person


class DeviceKind(models.TextChoices):
    """Where a device's entries come from."""

    PHONE = "phone", "phone"
    OFFICE = "office", "office"


class Device(models.Model):
    """Something that numbers journal entries; a phone also has a token, kept as its SHA-256.

    A token lets a phone append entries and fetch cards of one district, nothing else.
    """

    device_id = models.CharField(max_length=12, unique=True, default=new_device_id, editable=False)
    kind = models.CharField(max_length=6, choices=DeviceKind.choices)
    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="devices")
    person = models.ForeignKey(Person, null=True, on_delete=models.CASCADE, related_name="devices")
    label = models.CharField(max_length=60, blank=True)
    token_hash = models.CharField(max_length=64, unique=True, null=True)
    paired_at = models.DateTimeField()
    seen_at = models.DateTimeField(null=True)
    skew_ms = models.BigIntegerField(null=True)
    revoked_at = models.DateTimeField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=models.Q(kind=DeviceKind.OFFICE, token_hash__isnull=True)
                | models.Q(kind=DeviceKind.PHONE, token_hash__isnull=False, person__isnull=False),
                name="a_phone_has_a_token_and_a_person",
            ),
            models.UniqueConstraint(
                fields=["district"],
                condition=models.Q(kind=DeviceKind.OFFICE),
                name="one_office_device_a_district",
            ),
        ]

    def __str__(self) -> str:
        return self.label or self.device_id


class PairingCode(models.Model):
    """A code that pairs one phone, once, for some minutes; kept as its SHA-256."""

    code_hash = models.CharField(max_length=64, unique=True)
    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="pairing_codes")
    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="pairing_codes")
    made_at = models.DateTimeField()
    ends_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)
