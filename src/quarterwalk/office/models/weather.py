"""The weather of a district: the days of each station, as files brought them."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from quarterwalk.office.models.districts import District


class StationRow(models.Model):
    """One station with all its days.

    `days` holds three lines (lowest and highest temperatures in °F, and a `DayMark` for each
    day), from `first` on, each number in the shortest form that reads back equal. `sha256` is
    of `first` and `days`: the same content is the same weather.
    """

    district = models.ForeignKey(District, on_delete=models.CASCADE, related_name="stations")
    station = models.CharField(max_length=200)
    name = models.CharField(max_length=200, blank=True)
    longitude = models.FloatField(null=True)
    latitude = models.FloatField(null=True)
    elevation_m = models.FloatField(null=True)
    first = models.DateField()
    last = models.DateField()
    days = models.TextField()
    sha256 = models.CharField(max_length=64)
    taken_at = models.DateTimeField()

    class Meta:
        ordering: ClassVar = ["station"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["district", "station"], name="one_station_a_district_and_id"
            ),
        ]

    def __str__(self) -> str:
        return self.name or self.station
