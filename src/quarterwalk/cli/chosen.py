"""What the command line chose: a guideline, and walks."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from quarterwalk.cli.screen import end_progress, tell_progress
from quarterwalk.errors import UsageError
from quarterwalk.files.own_guideline import read_guideline
from quarterwalk.files.walk_table import WalkFile, read_walks
from quarterwalk.guideline import Guideline, load_guideline


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
    """Refuse two files that would both come from standard input.

    Parameters
    ----------
    options : argparse.Namespace
        Of a command that takes walks, boundaries and weather.

    Raises
    ------
    UsageError
        If more than one is ``-``.
    """
    paths = [options.walks, options.fields, *(options.weather or ())]
    if paths.count("-") > 1:
        raise UsageError("only one of the walks, --fields and --weather can be - (standard input).")


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
