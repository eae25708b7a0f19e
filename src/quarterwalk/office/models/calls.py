"""Calls that were made, each with all it rests on; a later one takes its place, none is changed."""

from __future__ import annotations

from typing import ClassVar

from django.db import models


class CallRow(models.Model):
    """One call on one walk, as the JSON that `quarterwalk call` prints.

    `walk_id` is plain text, not a reference: calls are records and stay when the rows of
    walks are made again.
    """

    walk_id = models.CharField(max_length=32, db_index=True)
    made_at = models.DateTimeField()
    content = models.TextField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        ordering: ClassVar = ["pk"]
