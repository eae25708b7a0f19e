"""The page on which weather is handed in, what is here, and what is said of a file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.office.forms.weather import WeatherForm
from quarterwalk.office.models import StationRow
from quarterwalk.office.pages.imports import FilePage, file_page, short_name, some_notices
from quarterwalk.office.pages.page import FormPage, Link, cancel
from quarterwalk.office.services.weather import TakenStation
from quarterwalk.weather import DailyWeather, DayMark

# Stations of one file that are told one by one. [count]
_MOST_STATIONS = 8

_BY = {
    DayMark.NEIGHBOUR: "from another station",
    DayMark.BETWEEN: "on a straight line between the days around",
    DayMark.OTHER_YEARS: "with the mean of other years",
}


@dataclass(frozen=True, slots=True)
class StationLine:
    """One station that is here."""

    name: str
    days: str
    known: str
    place: str
    remove_to: str


@dataclass(frozen=True, slots=True)
class WeatherPage:
    """The form for a file of weather, and the stations that are here."""

    file: FilePage
    stations: tuple[StationLine, ...]


def weather_page(
    form: WeatherForm, rows: Iterable[StationRow], here: Sequence[DailyWeather]
) -> WeatherPage:
    """Give the page for weather.

    Parameters
    ----------
    form : WeatherForm
        With the problems of the last try.
    rows : iterable of StationRow
        The stations of the district.
    here : sequence of DailyWeather
        Their days.

    Returns
    -------
    WeatherPage
    """
    said = (
        "Days or hours as CSV or XLSX, one row a day, with the columns date, tmin_f and tmax_f"
        " (or tmin_c and tmax_c), and station, latitude and longitude where there are several;"
        " or a file of the daily archive as it is.",
        "A field goes by the nearest station. Give some years, so that it is known what may come.",
        "Days are laid over those that are here: a measured day beats a forecast, and of two"
        " measured ones the newer file's holds.",
    )
    days = {each.station.id: each for each in here}
    return WeatherPage(
        file_page(form, "Weather", said, ".csv,.xlsx,.txt,.dly,.gz"),
        tuple(_station(row, days[row.station]) for row in rows if row.station in days),
    )


def _station(row: StationRow, days: DailyWeather) -> StationLine:
    missing = int(days.missing.sum())
    measured = (days.marks == DayMark.MEASURED).nonzero()[0]
    known = _day(days.day_at(int(measured[-1]))) if measured.size else "no day"
    lacking = f"; {_days(missing)} missing" if missing else ""
    return StationLine(
        name=str(row),
        days=f"{_day(row.first)} to {_day(row.last)}{lacking}",
        known=f"measured until {known}",
        place="" if days.station.place else "Its place is not known.",
        remove_to=reverse("weather-remove", args=[row.pk]),
    )


def _day(day: date) -> str:
    return f"{day.day} {day:%B %Y}"


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"


def away_page(station: StationRow, fields: int, *, others: bool) -> FormPage:
    """Give the page on which it is confirmed that a station goes.

    Parameters
    ----------
    station : StationRow
        Which.
    fields : int
        Whose stage is worked out from it. [fields]
    others : bool
        Whether there are other stations here.

    Returns
    -------
    FormPage
    """
    here = Link("Weather", reverse("weather-import"))
    days = f"{_day(station.first)} to {_day(station.last)}"
    return FormPage(
        f"Take away {station}",
        "Take it away",
        said=(f"All its days go with it, {days}.", _whose(fields, others=others)),
        above=here,
        back=cancel(here),
    )


def _whose(fields: int, *, others: bool) -> str:
    if not fields:
        return "The stage of no field is worked out from it just now."
    noun = "1 field" if fields == 1 else f"{fields} fields"
    told = f"The stage of {noun} is worked out from it"
    if others:
        return f"{told}. Then another station takes its place, where it reaches, or none."
    lacking = "it has" if fields == 1 else "they have"
    return f"{told}, and no other station is here: then {lacking} no stage and no call."


def taken_away(station: StationRow, *, left: bool) -> str:
    """Say that a station is gone.

    Parameters
    ----------
    station : StationRow
        Which.
    left : bool
        Whether there are stations here still.

    Returns
    -------
    str
    """
    told = f"The weather of {station} is taken away."
    if left:
        return f"{told} Calls are made anew without it."
    return f"{told} No weather is left here, so no stage is worked out from it any more."


def weather_taken(
    done: Sequence[TakenStation], told: WeatherFile, why_no_stage: str
) -> Iterator[str]:
    """Say what became of a weather file: its days, how gaps are filled, and what is odd in it.

    Parameters
    ----------
    done : sequence of TakenStation
        What was taken.
    told : WeatherFile
        The file.
    why_no_stage : str
        Why no field's stage can be worked out all the same; empty where one can.

    Yields
    ------
    str
    """
    noun = "station" if len(done) == 1 else "stations"
    yield f"Weather of {len(done)} {noun} taken from {short_name(told.file)}."
    for each in done[:_MOST_STATIONS]:
        yield " ".join(_told(each))
    if len(done) > _MOST_STATIONS:
        yield f"And {len(done) - _MOST_STATIONS} more stations."
    if why_no_stage:
        yield f"No field's stage can be worked out yet. {why_no_stage}"
    yield from some_notices([*(finding.text for finding in told.findings), *told.notices])


def _told(each: TakenStation) -> Iterator[str]:
    counts = [(each.added, "new"), (each.changed, "measured otherwise than before")]
    counts.append((each.measured, "now measured in place of a forecast"))
    counts.append((each.anew, "forecast otherwise than before"))
    parts = [f"{_days(count)} {what}" for count, what in counts if count]
    yield f"{each.label}: {', '.join(parts) or 'nothing new'}."
    if each.ahead:
        lie, taken = ("lies", "is") if each.ahead == 1 else ("lie", "are")
        yield f"{_days(each.ahead)} {lie} after today and {taken} taken as a forecast."
    filled = [f"{_days(count)} {_BY[kind]}" for kind, count in each.filled.items()]
    if filled:
        yield f"What it lacks is filled: {', '.join(filled)}."
    if each.missing:
        yield f"{_days(each.missing)} can't be filled."
    if not each.placed:
        yield "Its place is not known, so with other stations here no field goes by it."
