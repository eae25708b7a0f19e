"""How long PDFs take: the first, one more, and a morning's hundred; reports and walk sheets.

Run ``python benchmarks/pdfs.py`` (``--files 20`` for less) with the report extra
installed. Times are medians of several runs on this machine; quote them with the machine.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from importlib.metadata import version

import numpy as np
from shapely import MultiPolygon, box

from quarterwalk import load_guideline, make_call, stage_on, take_reading
from quarterwalk.crop import CropDates
from quarterwalk.field import Field, Layout, lay_out
from quarterwalk.report import Report, make_report, report_pdf
from quarterwalk.report.sheet import SheetContent, sheet_pdf, walk_sheet
from quarterwalk.report.sheet_page import sheet_page
from quarterwalk.walk import InsectCount, PlantCheck, SquareCount, Walk, WalkTable

DAY = date(2026, 6, 18)
FIRST_SQUARE = date(2026, 6, 8)
# About 120 acres, 700 m a side. [degrees]
SHAPE = MultiPolygon([box(-101.8, 33.6, -101.7925, 33.6063)])


def seconds(run: Callable[[], object]) -> float:
    """Time of one call. [s]"""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def walk_of(layout: Layout, rng: np.random.Generator) -> Walk:
    """Invent a walk of a field, with squares on two plants of each stop."""
    checks = []
    for stop in layout.stops:
        for plant in range(1, stop.plants + 1):
            healthy = int(rng.binomial(3, 0.85))
            squares = SquareCount(healthy, 3 - healthy) if plant <= 2 else None
            insects = InsectCount(int(rng.poisson(0.2)), 0)
            checks.append(PlantCheck(stop.quadrant, plant, stop.number, insects, squares))
    return Walk(layout.field.name, DAY, tuple(checks))


def report_of(layout: Layout, rng: np.random.Generator) -> Report:
    """Word the report of an invented walk."""
    rule, stage = load_guideline("southern-high-plains"), stage_on(DAY, CropDates(FIRST_SQUARE))
    table = WalkTable.from_walks([walk_of(layout, rng)])
    reading = take_reading(table.walk(0))
    call = make_call(reading, stage, rule, on=DAY)
    return make_report(table.heads[0], reading, call, layout=layout)


def fields(number: int) -> list[Layout]:
    """Lay one field out, under many names."""
    layout = lay_out(Field("Field", SHAPE, grower="Grower"), DAY)
    return [replace(layout, field=replace(layout.field, name=f"Field {n}")) for n in range(number)]


def sheet_of(layout: Layout) -> SheetContent:
    """Make the walk sheet of a field."""
    return walk_sheet(layout, guideline=load_guideline("southern-high-plains"), week=2)


def tell(what: str, made: Callable[[int], object], files: int) -> None:
    """Print the times of one kind of file: the first, one more, all."""
    busy = time.process_time()
    first = seconds(lambda: made(0))
    each = [seconds(lambda n=n: made(n)) for n in range(1, files)]
    print(
        f"{what:<38}{first:>8.3f}{statistics.median(each):>10.3f}{first + sum(each):>10.2f}"
        f"{time.process_time() - busy:>10.2f}",
        flush=True,
    )


def main() -> None:
    """Print the table of times."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--files", type=int, default=100)
    options = parser.parse_args()
    layouts, rng = fields(options.files), np.random.default_rng(1)
    print(f"python {sys.version.split()[0]}, typst {version('typst')}, times in seconds")
    print(f"{'':<38}{'first':>8}{'one more':>10}{f'all {options.files}':>10}{'of CPU':>10}")
    reports = [report_of(layout, rng) for layout in layouts]
    tell("report to PDF, 1 page, with pictures", lambda n: report_pdf(reports[n]), options.files)
    sheets: list[SheetContent] = []
    tell(
        "walk sheet, worded and drawn", lambda n: sheets.append(sheet_of(layouts[n])), len(layouts)
    )
    tell("walk sheet to PDF, 2 pages", lambda n: sheet_pdf(sheets[n]), options.files)
    tell("walk sheet to a web page", lambda n: sheet_page(sheets[n]), options.files)
    sizes = [len(report_pdf(reports[0])), len(sheet_pdf(sheets[0])), len(sheet_page(sheets[0]))]
    print("sizes: report {:,}, sheet {:,}, sheet as a page {:,} bytes".format(*sizes))


if __name__ == "__main__":
    main()
