"""The journal: the bytes that were sent, and what became of each entry."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.devices import Device
from quarterwalk.office.models.people import Person


class EntryState(models.TextChoices):
    """Whether an entry counts."""

    HELD = "held", "held"
    QUARANTINED = "quarantined", "waiting for a decision"
    LEFT_OUT = "left-out", "left out"


class JournalEntry(models.Model):
    """One entry as its bytes came; never changed, never deleted.

    `device` is who sent it. `device_id`, `seq` and `walk_id` are what the bytes claim, blank
    or null where they can't be read. One key is held once; the same key with other bytes is
    kept beside it, quarantined.
    """

    device = models.ForeignKey(Device, on_delete=models.PROTECT, related_name="entries")
    key_device = models.CharField(max_length=12, blank=True)
    key_seq = models.BigIntegerField(null=True)
    walk_id = models.CharField(max_length=32, blank=True, db_index=True)
    raw = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    received_at = models.DateTimeField()
    state = models.CharField(max_length=11, choices=EntryState.choices)
    why = models.CharField(max_length=20, blank=True)
    said = models.CharField(max_length=300, blank=True)
    decided_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    decided_at = models.DateTimeField(null=True)
    decided_why = models.CharField(max_length=300, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["key_device", "key_seq"],
                condition=models.Q(state=EntryState.HELD),
                name="one_held_entry_a_key",
            ),
            models.UniqueConstraint(
                fields=["device", "sha256"],
                condition=~models.Q(state=EntryState.HELD),
                name="the_same_bytes_wait_once",
            ),
        ]
