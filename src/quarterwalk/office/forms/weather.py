"""A file of weather, and beside it the list that says where its stations are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from quarterwalk.files.weather_file import WeatherFile, read_weather
from quarterwalk.office.forms.upload import UploadForm, plain_name, refuse_large, write_to
from quarterwalk.office.weather_naming import Naming, naming_of
from quarterwalk.weather import Station

# A rule of this project: a table without a station's name whose place is so near to that of a
# station here is of that station. [km]
_SAME_PLACE = 1.0


class WeatherForm(UploadForm[WeatherFile]):
    """A file of weather, with the archive's list of stations where there is one.

    Parameters
    ----------
    here : iterable of Station
        Those of the district: a table that does not name its station may be of one of them.
    """

    stations = forms.FileField(
        label="List of stations",
        help_text="Only where the weather file does not say where its stations lie: for files of"
        " the daily archive its list, ghcnd-stations.txt.",
        required=False,
        error_messages={"empty": "This file is empty."},
    )
    station = forms.ChoiceField(
        label="Station",
        help_text="Choose one where the file does not say of which station its days are.",
        required=False,
    )
    # what the file is read by comes first
    field_order = ("stations", "station", "file")

    def __init__(self, here: Iterable[Station], *args: Any, **kwargs: Any) -> None:
        super().__init__(self._read_by_list, *args, **kwargs)
        self._here = {station.id: station for station in here}
        self._naming = Naming.TABLE
        named = [(station.id, station.label) for station in self._here.values()]
        asked = self.fields["station"]
        if isinstance(asked, forms.ChoiceField):
            asked.choices = [("", "As the file says"), *named]
        if not named:
            del self.fields["station"]

    def clean_stations(self) -> UploadedFile[Any] | None:
        """Refuse a list that is too large."""
        upload: UploadedFile[Any] | None = self.cleaned_data.get("stations")
        if upload is not None:
            refuse_large(upload)
        return upload

    def clean(self) -> dict[str, Any] | None:
        """Take a file that does not name its station for the one that was chosen."""
        cleaned = super().clean()
        chosen = self._here.get(self.cleaned_data.get("station", ""))
        if self.told is None or not self._here or "station" in self.errors:
            return cleaned
        if chosen is not None and self._naming is not Naming.FILE_NAME:
            self.add_error("station", "This file names its stations. Choose “As the file says”.")
        elif chosen is not None:
            self.told = _as_of(chosen, self.told)
        elif (why := self._asks_station(self.told)) is not None:
            self.add_error("station", f"{why} Choose it here and the file once more.")
        if (why := self._asks_list(self.told)) is not None:
            self.add_error("stations", f"{why} Choose the file once more too.")
        return cleaned

    def _asks_station(self, told: WeatherFile) -> str | None:
        """Say why it must be asked of which station a file's days are; None where it is plain."""
        station = told.stations[0].station
        if self._naming is not Naming.FILE_NAME or station.id in self._here:
            return None
        if station.place is None:
            return (
                "The file does not say of which station its days are, and there is weather"
                " here already. Give the file a column station, with latitude and longitude,"
                " if it is of another one."
            )
        near = [each for each in self._here.values() if _lies_at(each, station)]
        if not near:
            return None
        return (
            f"The file names no station, and lies where {near[0].label} does. Give the file a"
            " column station if it is of another one."
        )

    def _asks_list(self, told: WeatherFile) -> str | None:
        """Say why an archive file needs the list of stations; None where it does not.

        The archive names a station in each row and seldom says where it lies; beside another
        station no field would go by it.
        """
        if self._naming is not Naming.ARCHIVE:
            return None
        own = [each.station for each in told.stations]
        here = (self._here.get(each.id) for each in own)
        placed = [each for each in (*own, *here) if each is not None and each.place is not None]
        if placed or not self._here.keys() - {each.id for each in own}:
            return None
        ids = own[0].id if len(own) == 1 else f"{own[0].id} and {len(own) - 1} more"
        if self.cleaned_data.get("stations") is not None:
            return f"This list does not say where {ids} lies."
        return (
            f"The file is of {ids} and does not say where that lies, and other stations are here."
            " Hand in the archive's list of stations (ghcnd-stations.txt) beside it."
        )

    def _read_by_list(self, path: Path) -> WeatherFile:
        told = self._read(path)
        self._naming = naming_of(path)
        return told

    def _read(self, path: Path) -> WeatherFile:
        upload: UploadedFile[Any] | None = self.cleaned_data.get("stations")
        if upload is None:
            return read_weather(path)
        with TemporaryDirectory() as folder:  # of its own: the two may have one name
            listed = Path(folder) / plain_name(upload.name or "")
            write_to(listed, upload)
            return read_weather(path, stations=listed)


def _lies_at(one: Station, other: Station) -> bool:
    km = None if other.place is None else one.distance_km(other.place)
    return km is not None and km <= _SAME_PLACE


def _as_of(station: Station, told: WeatherFile) -> WeatherFile:
    [days] = told.stations
    own = replace(days.station, id=station.id)
    return replace(told, stations=(replace(days, station=own),))
