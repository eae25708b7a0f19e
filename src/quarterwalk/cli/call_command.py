"""``quarterwalk call``: judge each walk by a region's guideline, and say why."""

from __future__ import annotations

import argparse

from quarterwalk.call import CallOptions, check_line
from quarterwalk.cli.chosen import chosen_dates, chosen_guideline, chosen_walks, refuse_two_streams
from quarterwalk.cli.judged import judge_walks, print_brief, print_call
from quarterwalk.cli.screen import print_json
from quarterwalk.files.call_json import walk_json


def run(options: argparse.Namespace) -> None:
    """Judge each walk and print the calls."""
    refuse_two_streams(options)
    guideline = chosen_guideline(options.guideline)
    if options.line is not None:
        check_line(guideline, options.line)
    walks = chosen_walks(options.walks)
    dates_of = chosen_dates(options, walks)
    known = _known(options.fields, [head.field for head in walks.table.heads])
    choice = CallOptions(options.line, options.level)
    judged = judge_walks(walks, dates_of, guideline, choice)
    if options.json:
        told = [walk_json(j.head, j.reading, level=options.level, call=j.call) for j in judged]
        print_json({"walks": told})
        return
    if not options.brief:
        for each in judged:
            print_call(each, known.get(each.head.field, ""))
    if options.brief or len(judged) > 1:
        print_brief(judged)


def _known(path: str | None, walked: list[str]) -> dict[str, str]:
    """Say what is known of each field walked, where boundaries are given."""
    if path is None:
        return {}
    # maps take long to load, so only who gives boundaries waits for them
    from quarterwalk.cli.ground import about, fields_by_name, known_as

    fields = fields_by_name(path, walked)
    return {name: about(fields[known_as(name)]) for name in walked if known_as(name) in fields}
