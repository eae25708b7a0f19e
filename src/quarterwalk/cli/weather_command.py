"""``quarterwalk weather``: what stations measured, what is wrong in it, and its heat units."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

from platformdirs import user_cache_path

from quarterwalk.cli.folder import refuse_written_over
from quarterwalk.cli.screen import print_json, say
from quarterwalk.cli.station_heat import told_stations
from quarterwalk.cli.walk_day import WalkDay, walk_day
from quarterwalk.cli.walk_day_told import print_walk_day, walk_day_json
from quarterwalk.cli.weather_files import ChosenWeather, chosen_weather, one_a_station
from quarterwalk.cli.weather_told import print_station
from quarterwalk.errors import UsageError
from quarterwalk.files.weather_json import StationTold, weather_json
from quarterwalk.files.weather_request import FORECAST_DAYS
from quarterwalk.files.weather_service import Service, fetch_weather
from quarterwalk.files.weather_writer import write_weather
from quarterwalk.weather.daily import DailyWeather

KEY = "QUARTERWALK_WEATHER_KEY"
"""Environment variable with the key of a paid service; a command line would show it."""


def run(options: argparse.Namespace) -> None:
    """Read the weather, and print or write what it tells."""
    _refuse_options_apart(options)
    weather = chosen_weather(options.files, options.stations)
    if options.service:
        of_files = [(weather.files[each.station.id], each) for each in weather.stations]
        stations, files = one_a_station([("the service", _asked(options)), *of_files])
        weather = replace(weather, stations=tuple(stations), files=files)
    walk = None if options.walk_on is None else _walk_day(weather, options)
    told = told_stations(weather.stations, options)
    # written first, so that nothing is lost where the reader of the screen goes away
    if options.out is not None:
        _write([each.filled for each in told], options.out)
    if options.json:
        content = weather_json(told, weather.findings)
        print_json(content if walk is None else content | {"walk_day": walk_day_json(walk)})
        return
    for each in told:
        print_station(each, [f for f in weather.findings if f.station == each.measured.station.id])
    if walk is not None:
        print_walk_day(walk)
    if options.out is not None:
        say(_written(told, options.out))


def _walk_day(weather: ChosenWeather, options: argparse.Namespace) -> WalkDay:
    """Work out sun and heat where the walk is: the place asked for, else the first station's."""
    places = [each.station.place for each in weather.stations if each.station.place]
    place = options.near or next(iter(places), None)
    return walk_day(options.walk_on, place, weather.hourly, weather.stations, zone=options.zone)


def _refuse_options_apart(options: argparse.Namespace) -> None:
    if options.out is not None and (not Path(options.out).name or Path(options.out).is_dir()):
        raise UsageError(
            f'--out must be a file that can be written to, got "{options.out}".'
            " Give a name such as weather.csv."
        )
    if options.out is not None:
        read = [*options.files, options.stations]
        refuse_written_over(options.out, [path for path in read if path])
    if options.zone is not None and options.walk_on is None:
        raise UsageError("--zone goes with --walk-on.")
    if not options.service:
        if not options.files:
            raise UsageError("give a FILE of weather, or --service to ask for it.")
        for option in ("forecast", "history", "cache"):
            if getattr(options, f"service_{option}") is not None:
                raise UsageError(f"--service-{option} goes with --service.")
    elif options.near is None or options.first is None:
        raise UsageError("--service needs --near, a place, and --from, the first day.")


def _asked(options: argparse.Namespace) -> DailyWeather:
    """Ask a service for the days from the first on, saying what it says beside them."""
    urls = {"forecast": options.service_forecast, "history": options.service_history}
    given = {kind: url for kind, url in urls.items() if url is not None}
    service = Service(**given, key=os.environ.get(KEY, ""))
    now = datetime.now().astimezone()
    last: date = options.last or now.date() + timedelta(days=FORECAST_DAYS - 1)
    cache = Path(options.service_cache or user_cache_path("quarterwalk") / "weather")
    told = fetch_weather(options.near, options.first, last, now=now, service=service, cache=cache)
    for notice in told.notices:
        print(notice, file=sys.stderr)
    return told.weather


def _write(stations: Sequence[DailyWeather], out: str) -> None:
    try:
        write_weather(stations, out)
    except OSError as error:
        why = error.strerror or str(error)
        raise UsageError(
            f"--out must be a file that can be written to, got {out}: {why}."
        ) from None


def _written(told: Sequence[StationTold], out: str) -> str:
    count = sum(each.measured.marks.size for each in told)
    days = "1 day" if count == 1 else f"{count:,} days"
    return f"{out} holds {days}, gaps filled; its column mark says where each came from."
