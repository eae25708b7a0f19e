"""``quarterwalk demo``: make an invented district's walks, and judge them as any others."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import numpy as np

from quarterwalk.call import CallOptions
from quarterwalk.cli.card_command import find_cards, write_cards
from quarterwalk.cli.chosen import chosen_guideline, chosen_walks
from quarterwalk.cli.demo_summary import DemoRun, print_summary
from quarterwalk.cli.folder import folder_for, refuse_taken, write
from quarterwalk.cli.ground import fields_by_name
from quarterwalk.cli.judged import Judgement, judge_walks
from quarterwalk.cli.parser import make_parser
from quarterwalk.cli.reports import Wishes, write_reports
from quarterwalk.cli.stage_command import read_seasons, write_seasons
from quarterwalk.cli.standing import chosen_standings
from quarterwalk.demo import (
    CARDS,
    FIELDS,
    PLANTED,
    PLANTINGS,
    REPORTS,
    SEASONS,
    SEEN,
    WALKS,
    WEATHER,
    District,
    load_district,
    make_season,
    write_rows,
    write_season,
)
from quarterwalk.errors import UsageError
from quarterwalk.field import Field
from quarterwalk.files.call_json import CALL_COLUMNS, call_rows, walk_json
from quarterwalk.guideline import CLOSEST_WATCH_WEEKS
from quarterwalk.reading import take_readings

CALLS_JSON, CALLS_CSV = "calls.json", "calls.csv"
_WRITTEN = (FIELDS, WALKS, PLANTINGS, PLANTED, WEATHER, SEEN, CALLS_JSON, CALLS_CSV)


def run(options: argparse.Namespace) -> None:
    """Make the walks, write them, read them back, judge them and tell how the fields stand."""
    if options.seed < 0:
        raise UsageError(f"--seed must be 0 or more, got {options.seed}.")
    season = make_season(load_district(), np.random.default_rng(options.seed))
    words = call_words(Path(options.out), season.district.guideline)
    with folder_for(options.out) as folder:
        refuse_taken(folder, _WRITTEN, [options.fields])
        write_season(season, folder)
        judged = _judge(words, folder)
        fields = fields_by_name(options.fields or str(folder / FIELDS), [])
        write_last_reports(judged, fields, folder, season.district.advisor)
        write_last_seasons(stage_words(folder, season.district), folder)
        write_stop_cards(season.district, folder)
    print_summary(DemoRun(season, judged, folder, words, metric=options.units == "metric"))
    if options.calls_only:
        return
    from quarterwalk.cli.demo_office import open_office

    open_office(season, folder)


def write_last_reports(
    judged: list[Judgement], fields: dict[str, Field], folder: Path, advisor: str
) -> None:
    """Write what each grower is told of the last walk of each field.

    Parameters
    ----------
    judged : list of Judgement
        All walks.
    fields : dict of str to Field
        Boundaries by name.
    folder : Path
        The demo's folder. [folder name]
    advisor : str
        Who to ask.
    """
    last = {each.head.field: each for each in judged}
    where = folder / REPORTS
    where.mkdir(exist_ok=True)
    write_reports(list(last.values()), fields, where, Wishes(advisor=advisor))


def write_last_seasons(words: list[str], folder: Path) -> None:
    """Write where each field's season stands on the last day, as ``quarterwalk stage`` does.

    Parameters
    ----------
    words : list of str
        What follows ``quarterwalk`` in that command.
    folder : Path
        The demo's folder. [folder name]
    """
    seasons, _, _ = read_seasons(make_parser().parse_args(words))
    where = folder / SEASONS
    where.mkdir(exist_ok=True)
    write_seasons(seasons, where)


def write_stop_cards(district: District, folder: Path) -> None:
    """Write the cards that say when a walk may end early, as ``quarterwalk card`` does.

    Parameters
    ----------
    district : District
        With the region's rule and the last day.
    folder : Path
        The demo's folder. [folder name]
    """
    where = folder / CARDS
    where.mkdir(exist_ok=True)
    # the weeks for which plans come with the package: none is worked out here
    for week in range(1, CLOSEST_WATCH_WEEKS + 1):
        rule = ["--guideline", district.guideline, "--week", str(week)]
        day = ["--date", district.last_day.isoformat()]
        options = make_parser().parse_args(["card", *rule, *day, "--out", _plain(where)])
        cards = [(ground, card) for ground, card in find_cards(options) if card is not None]
        write_cards(cards, where, options)


def stage_words(folder: Path, district: District) -> list[str]:
    """Give the words of the command that tells how far the crops in a folder are.

    Parameters
    ----------
    folder : Path
        Where the demo's tables are. [folder name]
    district : District
        With the region's rule and the last day.

    Returns
    -------
    list of str
        What follows ``quarterwalk``.
    """
    planted, weather, seen, walks, fields = (
        _plain(folder / name) for name in (PLANTED, WEATHER, SEEN, WALKS, FIELDS)
    )
    told = ["--weather", weather, "--seen", seen, "--walks", walks, "--fields", fields]
    rule = ["--guideline", district.guideline, "--on", district.last_day.isoformat()]
    return ["stage", planted, *told, *rule]


def call_words(folder: Path, guideline: str) -> list[str]:
    """Give the words of the command that judges the walks in a folder.

    Parameters
    ----------
    folder : Path
        Where the demo's tables are. [folder name]
    guideline : str
        The region's rule.

    Returns
    -------
    list of str
        What follows ``quarterwalk``.
    """
    walks, plantings = (_plain(folder / name) for name in (WALKS, PLANTINGS))
    return ["call", walks, "--guideline", guideline, "--plantings", plantings]


def _plain(path: Path) -> str:
    """Write a path so that it is not taken for an option."""
    return f"./{path}" if str(path).startswith("-") else str(path)


def _judge(words: list[str], folder: Path) -> list[Judgement]:
    """Judge what was written, just as ``quarterwalk call`` does, and write the calls."""
    options = make_parser().parse_args(words)
    walks = chosen_walks(options.walks)
    guideline = chosen_guideline(options.guideline)
    choice = CallOptions(options.line, options.level)
    readings = take_readings(walks.table)
    standings = chosen_standings(options, walks, readings, {})
    judged = judge_walks(walks.table.heads, readings, standings, guideline, choice)
    told = [walk_json(j.head, j.reading, level=options.level, call=j.call) for j in judged]
    text = json.dumps({"walks": told}, indent=2, ensure_ascii=False) + "\n"
    write(folder / CALLS_JSON, text)
    write_rows(folder / CALLS_CSV, CALL_COLUMNS, call_rows(told))
    return judged
