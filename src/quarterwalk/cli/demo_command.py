"""``quarterwalk demo``: make an invented district's walks, and judge them as any others."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import numpy as np

from quarterwalk.call import CallOptions
from quarterwalk.cli.chosen import chosen_dates, chosen_guideline, chosen_walks
from quarterwalk.cli.demo_summary import DemoRun, print_summary
from quarterwalk.cli.folder import folder_for, write
from quarterwalk.cli.ground import fields_by_name
from quarterwalk.cli.judged import Judgement, judge_walks
from quarterwalk.cli.parser import make_parser
from quarterwalk.cli.reports import Wishes, write_reports
from quarterwalk.demo import (
    FIELDS,
    PLANTINGS,
    REPORTS,
    WALKS,
    load_district,
    make_season,
    write_rows,
    write_season,
)
from quarterwalk.errors import UsageError
from quarterwalk.field import Field
from quarterwalk.files.call_json import CALL_COLUMNS, call_rows, walk_json

CALLS_JSON, CALLS_CSV = "calls.json", "calls.csv"


def run(options: argparse.Namespace) -> None:
    """Make the walks, write them, read them back, judge them and tell how the fields stand."""
    if options.seed < 0:
        raise UsageError(f"--seed must be 0 or more, got {options.seed}.")
    season = make_season(load_district(), np.random.default_rng(options.seed))
    words = call_words(Path(options.out), season.district.guideline)
    with folder_for(options.out) as folder:
        write_season(season, folder)
        judged = _judge(words, folder)
        fields = fields_by_name(options.fields or str(folder / FIELDS), [])
        write_last_reports(judged, fields, folder, season.district.advisor)
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
    judged = judge_walks(walks, chosen_dates(options, walks), guideline, choice)
    told = [walk_json(j.head, j.reading, level=options.level, call=j.call) for j in judged]
    text = json.dumps({"walks": told}, indent=2, ensure_ascii=False) + "\n"
    write(folder / CALLS_JSON, text)
    write_rows(folder / CALLS_CSV, CALL_COLUMNS, call_rows(told))
    return judged
