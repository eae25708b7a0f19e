"""Which fields and days a change of a district's weather reaches."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from quarterwalk.office.crop_clocks import days_digest, stand_of
from quarterwalk.office.kept_weather import DistrictWeather
from quarterwalk.office.models import FieldRow, SeasonRow
from quarterwalk.weather import DailyWeather, Place, WeatherError, weather_for

_Days = tuple[bytes, float | None] | str
"""What a field goes by, with how far that is; or why there is nothing."""


@dataclass(frozen=True, slots=True, eq=False)
class WeatherChange:
    """A district's weather before and after a change.

    Parameters
    ----------
    before, after : DistrictWeather
        All of it.
    since : date or None
        The first day that is another; None where none is.
    """

    before: DistrictWeather
    after: DistrictWeather
    since: date | None
    _until: dict[tuple[str, date], tuple[DailyWeather, ...]] = field(default_factory=dict)

    def reaches(self, row: FieldRow, season: SeasonRow, on: date) -> bool:
        """Tell whether the weather by which a field's walk of a day was judged is another now.

        Parameters
        ----------
        row : FieldRow
            The field.
        season : SeasonRow
            Its season.
        on : date
            The day of the walk. What was measured after it, or forecast then, is not looked
            at: a call stays as it is when only days after it change.

        Returns
        -------
        bool
            Never where there is no weather after the change: then no call can be made.
        """
        if self.since is None or on < self.since or not self.after.stations:
            return False
        planted, place = stand_of(row, season, on)
        before = self._days(self.before, place, planted, on)
        return before != self._days(self.after, place, planted, on)

    def _days(self, weather: DistrictWeather, place: Place, planted: date, on: date) -> _Days:
        key = weather.content, on
        if key not in self._until:
            here = (each for each in weather.stations if each.first <= on)
            self._until[key] = tuple(each.between(each.first, on) for each in here)
        try:
            told = weather_for(self._until[key], place, first=planted, last=max(planted, on))
        except WeatherError as error:
            return str(error)
        return days_digest(told.weather), told.distance_km
