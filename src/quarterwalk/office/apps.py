"""The one Django app of the office."""

from __future__ import annotations

from django.apps import AppConfig


class OfficeConfig(AppConfig):
    """All rows of the office live under one label."""

    name = "quarterwalk.office"
    label = "office"
    default_auto_field = "django.db.models.BigAutoField"
