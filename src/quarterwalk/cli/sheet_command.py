"""``quarterwalk sheet``: a blank walk sheet of each field, to print."""

from __future__ import annotations

import argparse
import sys
from datetime import date

from quarterwalk.cli.chosen import chosen_guideline
from quarterwalk.cli.folder import folder_for, refuse_taken, write
from quarterwalk.cli.ground import asked_for, chosen_fields, laid_out, size_notices
from quarterwalk.cli.reports import PAPERS, no_pdf, pdfs_can_be_made
from quarterwalk.cli.screen import end_progress, say, tell_done
from quarterwalk.cli.zone_option import named_zone
from quarterwalk.field import Plan
from quarterwalk.files.file_names import file_names
from quarterwalk.guideline import load_routine
from quarterwalk.report import sheet_page, sheet_pdf, walk_sheet


def run(options: argparse.Namespace) -> None:
    """Lay the fields out for the day and write a sheet of each."""
    fields = asked_for(chosen_fields(options.fields), options.field)
    on = options.date or date.today()  # noqa: DTZ011 - the day on the scout's own calendar
    guideline = chosen_guideline(options.guideline) if options.guideline else None
    zone = named_zone(options.zone) if options.zone is not None else None
    plan = Plan(options.loops, options.plants or load_routine().plants_a_stop)
    layouts = laid_out(fields, on, plan)
    for notice in size_notices(layouts, "quarterwalk quarters --out DIR"):
        print(notice, file=sys.stderr)
    names, paper = file_names(field.name for field in fields), PAPERS[options.paper]
    pdfs = pdfs_can_be_made()
    ends = (".html", ".pdf") if pdfs else (".html",)
    with folder_for(options.out) as folder:
        refuse_taken(folder, [f"{name}-sheet{end}" for name in names for end in ends])
        for number, (layout, name) in enumerate(zip(layouts, names, strict=True), start=1):
            sheet = walk_sheet(
                layout,
                guideline=guideline,
                week=options.week,
                language=options.language,
                zone=zone,
            )
            write(folder / f"{name}-sheet.html", sheet_page(sheet, paper=paper))
            if pdfs:
                write(folder / f"{name}-sheet.pdf", sheet_pdf(sheet, paper=paper))
            tell_done(number, len(fields), "sheets")
    end_progress()
    count = "1 blank sheet" if len(fields) == 1 else f"{len(fields)} blank sheets"
    how = "as a PDF and as a page to print" if pdfs else "as a page to print"
    say(f"{folder} holds {count}, {how}." + ("" if pdfs else f" {no_pdf()}"))
