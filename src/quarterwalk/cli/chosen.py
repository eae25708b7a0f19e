"""What the command line chose: a guideline, walks, and the dates of each walk's field."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from quarterwalk.cli.screen import end_progress, tell_progress
from quarterwalk.crop import CropDateError, CropDates
from quarterwalk.errors import Problem, RefusedInput, UsageError
from quarterwalk.files.own_guideline import read_guideline
from quarterwalk.files.plantings import read_plantings
from quarterwalk.files.walk_table import WalkFile, read_walks
from quarterwalk.guideline import Guideline, load_guideline
from quarterwalk.walk import WalkHead

DatesOf = Callable[[int, WalkHead], CropDates]
"""Gives the dates of the walk with this index."""


def chosen_guideline(name: str) -> Guideline:
    """Take a guideline from the shelf, or from the user's own file.

    Parameters
    ----------
    name : str
        A packaged name, or a path: one that has a folder or ends in ``.toml``.

    Returns
    -------
    Guideline
    """
    if name.lower().endswith(".toml") or "/" in name or "\\" in name or Path(name).is_file():
        return read_guideline(name)
    return load_guideline(name)


def refuse_two_streams(options: argparse.Namespace) -> None:
    """Refuse walks and boundaries that would both come from standard input.

    Parameters
    ----------
    options : argparse.Namespace
        Of a command that takes both.

    Raises
    ------
    UsageError
        If both are ``-``.
    """
    if options.walks == options.fields == "-":
        raise UsageError("only one of WALKS and --fields can be - (standard input).")


def chosen_walks(path: str) -> WalkFile:
    """Read the walk table, saying on standard error what was left alone.

    Parameters
    ----------
    path : str
        A file, or ``-`` for standard input.

    Returns
    -------
    WalkFile
    """
    stdin = sys.stdin.buffer if path == "-" else None
    try:
        walks = read_walks(path, stdin=stdin, progress=tell_progress)
    finally:
        end_progress()
    for notice in walks.notices:
        print(notice, file=sys.stderr)
    return walks


def chosen_dates(options: argparse.Namespace, walks: WalkFile) -> DatesOf:
    """Find the crop dates of every walk.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk call``.
    walks : WalkFile
        The walks.

    Returns
    -------
    callable
        Gives the dates of each walk.

    Raises
    ------
    UsageError
        If the dates given contradict each other, or are given twice.
    RefusedInput
        If a walk's field has no row in the plantings.
    """
    if options.plantings is not None:
        return _from_table(options, walks)
    first, last = options.first_square
    treated = () if options.treated is None else (options.treated,)
    try:
        dates = CropDates(first, last, options.bloom, treated)
    except CropDateError as error:
        raise UsageError(str(error)) from None
    return lambda index, head: dates


def _from_table(options: argparse.Namespace, walks: WalkFile) -> DatesOf:
    for option in ("bloom", "treated"):
        if getattr(options, option) is not None:
            raise UsageError(
                f"--{option} goes with --first-square; --plantings has a column for it."
            )
    plantings = read_plantings(options.plantings)
    for notice in plantings.notices:
        print(notice, file=sys.stderr)
    lacking: dict[str, int] = {}
    for index, head in enumerate(walks.table.heads):
        if head.field not in plantings.plantings:
            lacking.setdefault(head.field, index)
    if lacking:
        expected = f"a field with a row in {plantings.file}"
        problems = [
            Problem(walks.file, walks.first_row(index), "field", field, expected)
            for field, index in lacking.items()
        ]
        raise RefusedInput(problems[:50], max(0, len(problems) - 50))
    return lambda index, head: plantings.plantings[head.field].dates
