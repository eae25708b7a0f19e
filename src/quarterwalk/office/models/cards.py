"""Walk cards that were given out, so that every walk can name the one it was walked by."""

from __future__ import annotations

from django.db import models

from quarterwalk.office.models.fields import FieldRow


class CardRow(models.Model):
    """One card, by the SHA-256 of its bytes.

    `inputs` is a hash of all that it was made from, so that a field of which nothing has
    changed is not laid out again on the same day.
    """

    sha256 = models.CharField(max_length=64, primary_key=True)
    field = models.ForeignKey(FieldRow, on_delete=models.CASCADE, related_name="cards")
    on = models.DateField()
    inputs = models.CharField(max_length=64, db_index=True)
    raw = models.BinaryField()
    made_at = models.DateTimeField()
