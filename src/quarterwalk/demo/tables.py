"""The demo's tables: walks and plantings as any district would hand them in, and the truth."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

import numpy as np

from quarterwalk.demo.boundaries import demo_fields, demo_middle
from quarterwalk.demo.season import FieldSeason, Season, TrueWalk
from quarterwalk.demo.sightings import SEEN_COLUMNS, seen_rows
from quarterwalk.demo.truth import rule_says_treat
from quarterwalk.demo.weather import WEATHER_COLUMNS, demo_weather, weather_rows
from quarterwalk.files.field_json import field_json
from quarterwalk.files.plantings import COLUMNS as PLANTING_COLUMNS
from quarterwalk.files.walk_writer import write_walks
from quarterwalk.files.whole_file import whole_file
from quarterwalk.guideline import Guideline, load_guideline

WALKS, PLANTINGS, TRUTH = "walks.csv", "plantings.csv", "truth.csv"
"""Names of the tables inside the demo's folder."""

WEATHER, SEEN, PLANTED = "weather.csv", "seen.csv", "planted.csv"
"""Days of two stations, what was seen of the crops, and the plantings without first square."""

FIELDS, REPORTS, SEASONS = "fields.geojson", "reports", "seasons"
"""The boundaries, the folder of what growers are told, and that of each field's season."""

CARDS = "cards"
"""The folder of the cards that say when a walk may end early."""

# The scouts' looks at the crop have dice of their own, so that no walk changes with them.
_SEEN_DICE = 5

TRUTH_COLUMNS = (
    "field", "date", "walk", "squaring_week", "per_100", "per_100_nw", "per_100_ne",
    "per_100_sw", "per_100_se", "clumping_k", "square_set", "missing", "blasted", "flared",
    "sites_per_plant", "rule_says",
)  # fmt: skip
"""Columns of the truth, one row a walk; what became of squares is a share of all."""


def write_season(season: Season, folder: Path) -> None:
    """Write a season's tables, each whole or not at all: what a district hands in, and the truth.

    Parameters
    ----------
    season : Season
        The season.
    folder : Path
        Where; it is there already. [folder name]
    """
    with whole_file(folder / FIELDS) as file:
        file.write(json.dumps(field_json(demo_fields()), ensure_ascii=False).encode("utf-8"))
    write_walks(season.table, folder / WALKS)
    rows = [_planting(each) for each in season.fields]
    write_rows(folder / PLANTINGS, PLANTING_COLUMNS, rows)
    write_rows(folder / PLANTED, PLANTING_COLUMNS, map(_without_first_square, rows))
    stations = demo_weather(demo_middle())
    write_rows(folder / WEATHER, WEATHER_COLUMNS, weather_rows(stations))
    dice = np.random.default_rng(_SEEN_DICE)
    seen = seen_rows(season.district, stations[0].weather, dice)
    write_rows(folder / SEEN, SEEN_COLUMNS, seen)
    guideline = load_guideline(season.district.guideline)
    truths = (_truth(each, guideline) for each in season.walks)
    write_rows(folder / TRUTH, TRUTH_COLUMNS, truths)


def write_rows(path: Path, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Write a CSV table, whole or not at all.

    Parameters
    ----------
    path : Path
        Where. [file name]
    columns : sequence of str
        The header.
    rows : iterable of sequence of str
        The cells.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(columns)
    writer.writerows(rows)
    with whole_file(path) as file:
        file.write(text.getvalue().encode("utf-8"))


def _planting(season: FieldSeason) -> list[str]:
    field, dates = season.field, season.dates
    first = dates.first_square.isoformat()
    if dates.first_square_latest is not None:
        first += f"/{dates.first_square_latest.isoformat()}"
    cells = {
        "field": field.name,
        "planted": field.planted.isoformat(),
        "first_square": first,
        "bloom": _day(dates.bloom),
        "treated": " ".join(map(_day, dates.treated)),
        "variety": field.variety,
        "water": field.water,
        "replanted": _day(field.replanted),
        "hail": " ".join(map(_day, field.hail)),
    }
    return [cells.get(column, "") for column in PLANTING_COLUMNS]


def _without_first_square(row: Sequence[str]) -> list[str]:
    """Leave out what the clock is to work out."""
    unknown = {"first_square", "bloom"}
    return [
        "" if column in unknown else cell
        for column, cell in zip(PLANTING_COLUMNS, row, strict=True)
    ]


def _day(day: date | None) -> str:
    return "" if day is None else day.isoformat()


def _truth(each: TrueWalk, guideline: Guideline) -> list[str]:
    walk, truth = each.walk, each.truth
    lost = 1 - truth.square_set
    numbers = (
        truth.field_per_100,
        *truth.per_100,
        truth.clumping,
        truth.square_set,
        *(lost * share for share in truth.lost_as),
        truth.sites,
    )
    says = {True: "treat", False: "do not treat", None: ""}[rule_says_treat(truth, guideline)]
    week = "" if truth.squaring_week is None else str(truth.squaring_week)
    told = [f"{number:.6g}" for number in numbers]
    return [walk.field, walk.date.isoformat(), walk.id, week, *told, says]
