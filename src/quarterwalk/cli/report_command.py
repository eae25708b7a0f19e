"""``quarterwalk report``: a page for the grower about each walk."""

from __future__ import annotations

import argparse
from dataclasses import replace

from quarterwalk.call import CallOptions, check_line
from quarterwalk.cli.chosen import chosen_guideline, chosen_walks, refuse_two_streams
from quarterwalk.cli.folder import folder_for
from quarterwalk.cli.ground import fields_by_name
from quarterwalk.cli.judged import judge_walks
from quarterwalk.cli.reports import PAPERS, Wishes, say_where, write_reports
from quarterwalk.cli.standing import chosen_standings
from quarterwalk.errors import UsageError
from quarterwalk.reading import take_readings


def run(options: argparse.Namespace) -> None:
    """Judge the walks of a day and write what each grower is told."""
    refuse_two_streams(options)
    guideline = chosen_guideline(options.guideline)
    if options.line is not None:
        check_line(guideline, options.line)
    walks = chosen_walks(options.walks)
    readings = take_readings(walks.table)
    heads = walks.table.heads
    told = [head.field for head in heads if options.day in (None, head.date)]
    fields = fields_by_name(options.fields, told)
    standings = chosen_standings(options, walks, readings, fields)
    choice = CallOptions(options.line, options.level, options.language)
    judged = judge_walks(heads, readings, standings, guideline, choice)
    if options.day is not None:
        days = sorted({each.head.date for each in judged})
        judged = [each for each in judged if each.head.date == options.day]
        if not judged:
            raise UsageError(
                f"--day must be a day with a walk in {walks.file},"
                f" {days[0]} to {days[-1]}, got {options.day}."
            )
    wishes = Wishes(
        advisor=options.advisor,
        contact=options.contact,
        language=options.language,
        paper=PAPERS[options.paper],
        level=options.level,
    )
    with folder_for(options.out) as folder:
        read = [options.walks, options.plantings, options.fields]
        write_reports(judged, fields, folder, replace(wishes, one_pdf=options.one_pdf), read)
    say_where(folder, len(judged), one_pdf=options.one_pdf)
