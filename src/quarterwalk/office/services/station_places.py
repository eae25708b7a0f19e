"""Where stations lie: what a file may say of it, beside what is here."""

from __future__ import annotations

from collections.abc import Mapping

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.weather_file import WeatherFile
from quarterwalk.weather import DailyWeather, Station

# A rule of this project: lists of stations round places, and give the town for the mast; one
# that lies farther off than this is another station. [km]
MOST_MOVED = 5.0


def refuse_places(weather: WeatherFile, here: Mapping[str, DailyWeather]) -> None:
    """Refuse a file after which fields would go by no station, or by one that has moved.

    Parameters
    ----------
    weather : WeatherFile
        The file.
    here : mapping of str to DailyWeather
        The district's stations, by id.

    Raises
    ------
    RefusedInput
        If it is so.
    """
    told = {each.station.id: each.station for each in weather.stations}
    problems = [
        problem
        for id, station in told.items()
        if id in here and (problem := _moved(weather.file, here[id].station, station)) is not None
    ]
    if problems:
        raise RefusedInput(problems)
    new = [station for id, station in told.items() if id not in here]
    every = [*told.values(), *(each.station for each in here.values())]
    several = len({each.id for each in every}) > 1
    if new and several and not any(each.place for each in every):
        raise RefusedInput([_unplaced(weather.file, new[0], here)])


def _moved(file: str, before: Station, after: Station) -> Problem | None:
    if before.place is None or after.place is None:
        return None
    km = after.distance_km(before.place) or 0.0
    if km <= MOST_MOVED:
        return None
    return Problem(
        file,
        None,
        "latitude",
        f"a place {km:.0f} km away",
        f"the place of {before.label}, which is here already",
        "Give another station another id; where its place was wrong, take the station away first.",
    )


def _unplaced(file: str, new: Station, here: Mapping[str, DailyWeather]) -> Problem:
    others = ", ".join(each.station.label for each in here.values()) or "others in the file"
    return Problem(
        file,
        None,
        "station",
        new.label,
        "a station whose place is known, since a field goes by the nearest",
        f"There is weather of {others}, whose place is not known either. Give latitude and"
        " longitude in the table, or the archive's list of stations beside the file.",
    )
