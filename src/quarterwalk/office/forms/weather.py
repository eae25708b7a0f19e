"""A file of weather, and beside it the list that says where its stations are."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from quarterwalk.files.weather_file import WeatherFile, read_weather
from quarterwalk.office.forms.upload import UploadForm, plain_name, refuse_large, write_to


class WeatherForm(UploadForm[WeatherFile]):
    """A file of weather, with the archive's list of stations where there is one."""

    stations = forms.FileField(
        label="List of stations",
        help_text="Only where the weather file does not say where its stations lie.",
        required=False,
        error_messages={"empty": "This file is empty."},
    )
    # the list comes first, since the file is read by it
    field_order = ("stations", "file")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(self._read_by_list, *args, **kwargs)

    def clean_stations(self) -> UploadedFile[Any] | None:
        """Refuse a list that is too large."""
        upload: UploadedFile[Any] | None = self.cleaned_data.get("stations")
        if upload is not None:
            refuse_large(upload)
        return upload

    def _read_by_list(self, path: Path) -> WeatherFile:
        upload: UploadedFile[Any] | None = self.cleaned_data.get("stations")
        if upload is None:
            return read_weather(path)
        beside = path.parent / "list"
        beside.mkdir()
        listed = beside / plain_name(upload.name or "")
        write_to(listed, upload)
        return read_weather(path, stations=listed)
