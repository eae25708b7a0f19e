"""``quarterwalk call``: judge each walk by a region's guideline, and say why."""

from __future__ import annotations

import argparse

from quarterwalk.call import CallOptions, check_line
from quarterwalk.cli.chosen import chosen_guideline, chosen_walks, refuse_two_streams
from quarterwalk.cli.judged import judge_walks, print_brief, print_call
from quarterwalk.cli.screen import print_json
from quarterwalk.cli.standing import chosen_standings
from quarterwalk.files.call_json import walk_json
from quarterwalk.reading import take_readings

TYPE_CHECKING = False

if TYPE_CHECKING:
    from quarterwalk.field import Field


def run(options: argparse.Namespace) -> None:
    """Judge each walk and print the calls."""
    refuse_two_streams(options)
    guideline = chosen_guideline(options.guideline)
    if options.line is not None:
        check_line(guideline, options.line)
    walks = chosen_walks(options.walks)
    readings = take_readings(walks.table)
    heads = walks.table.heads
    fields = _fields(options.fields, [head.field for head in heads])
    standings = chosen_standings(options, walks, readings, fields)
    choice = CallOptions(options.line, options.level)
    judged = judge_walks(heads, readings, standings, guideline, choice)
    if options.json:
        told = [walk_json(j.head, j.reading, level=options.level, call=j.call) for j in judged]
        print_json({"walks": told})
        return
    if not options.brief:
        for each in judged:
            print_call(each, _known(fields, each.head.field))
    if options.brief or len(judged) > 1:
        print_brief(judged)


def _fields(path: str | None, walked: list[str]) -> dict[str, Field]:
    """Read the boundaries, where they are given."""
    if path is None:
        return {}
    # maps take long to load, so only who gives boundaries waits for them
    from quarterwalk.cli.ground import fields_by_name

    return fields_by_name(path, walked)


def _known(fields: dict[str, Field], name: str) -> str:
    """Say what is known of a field walked, where its boundary is given."""
    if not fields:
        return ""
    from quarterwalk.cli.ground import about, known_as

    return about(fields[known_as(name)]) if known_as(name) in fields else ""
