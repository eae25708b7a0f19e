"""``quarterwalk quarters``: where to walk: quarters, stops and loops of each field."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from pathlib import Path

from quarterwalk.call.figures import day_words
from quarterwalk.cli.folder import folder_for, refuse_taken, write
from quarterwalk.cli.ground import chosen_fields, laid_out, size_notices
from quarterwalk.cli.lengths import area_words, length_words
from quarterwalk.cli.screen import Ink, inked, print_json, say
from quarterwalk.field import Field, Layout, Plan
from quarterwalk.field.emptiest import largest_empty_circles
from quarterwalk.field.parts import parts_of
from quarterwalk.files.field_json import field_json
from quarterwalk.files.file_names import file_names
from quarterwalk.files.gpx import layout_gpx
from quarterwalk.files.layout_json import layout_json
from quarterwalk.guideline import load_routine
from quarterwalk.picture import Theme, field_sketch, on_paper

QUARTERS, PARTS = "quarters.geojson", "parts.geojson"
"""Names of the files inside the folder."""

# Width and height of a sketch that fills a page. [pixels]
_SKETCH = (820, 820)


def run(options: argparse.Namespace) -> None:
    """Lay each field out for the day, and print or write where to walk."""
    fields = chosen_fields(options.fields)
    on = options.date or date.today()  # noqa: DTZ011 - the day on the scout's own calendar
    plan = Plan(options.loops, options.plants or load_routine().plants_a_stop)
    layouts = laid_out(fields, on, plan)
    for notice in size_notices(layouts, "--out DIR"):
        print(notice, file=sys.stderr)
    # written first, so that nothing is lost where the reader of the screen goes away
    written = [] if options.out is None else _write(layouts, options.out, options.fields)
    if options.json:
        print_json(layout_json(layouts))
        return
    for layout in layouts:
        _print(layout, metric=options.units == "metric")
    say(f"The stops are for {day_words(on)} {on.year}; on another day they are others.")
    for line in written or ["Add --out DIR for a sketch and a GPX file of each field."]:
        say(line)


def _print(layout: Layout, *, metric: bool) -> None:
    field = layout.field
    whose = f", {field.grower}" if field.grower else ""
    head = f"{field.name}, {area_words(layout.acres, metric=metric)}{whose}"
    print(inked(head, Ink.HEAD))
    quarter = area_words(layout.acres / 4, metric=metric)
    say(f"Four quarters of {quarter} each.", indent=2)
    for loop in layout.loops:
        stops = [stop for stop in layout.stops if stop.loop == loop.number]
        plants = sum(stop.plants for stop in stops)
        length = length_words(loop.metres, metric=metric)
        say(
            f"Loop {loop.number}: {len(stops)} stops, {plants} plants, {length},"
            f" {loop.minutes:.0f} minutes of walking.",
            indent=2,
            hanging=4,
        )
    farthest = max(largest_empty_circles(layout, 1).values())
    say(
        "After loop 1 no plant stands farther from a stop in its quarter than"
        f" {length_words(farthest, metric=metric)}.",
        indent=2,
        hanging=4,
    )
    say()


def _write(layouts: Sequence[Layout], out: str, read: str) -> list[str]:
    """Write sketches, GPX files, everything as GeoJSON, parts of large fields; say what."""
    with folder_for(out) as folder:
        names = file_names(layout.field.name for layout in layouts)
        written = [f"{name}{end}" for name in names for end in (".gpx", ".svg")]
        refuse_taken(folder, [*written, QUARTERS, PARTS], [read])
        for layout, name in zip(layouts, names, strict=True):
            # GPX wants an hour; the day is all there is to say
            at = datetime.combine(layout.on, time(), tzinfo=UTC)
            write(folder / f"{name}.gpx", layout_gpx([layout], at=at))
            write(folder / f"{name}.svg", _sketch(layout))
        write(folder / QUARTERS, json.dumps(layout_json(layouts), ensure_ascii=False))
        parts = _parts([layout.field for layout in layouts], folder)
    told = [f"{folder} holds a sketch (SVG) and a GPX file of each field, and {QUARTERS}."]
    if parts:
        told.append(
            f"{PARTS} holds proposed parts of fields too large for one walk: {parts} parts."
        )
    return told


def _sketch(layout: Layout) -> str:
    width, height = _SKETCH
    svg = field_sketch(
        layout, theme=Theme.PRINT, width=width, height=height, id="sketch", language="en"
    )
    return on_paper(svg, width=width, height=height)


def _parts(fields: Sequence[Field], folder: Path) -> int:
    """Write the parts of the fields that are too large, and tell how many there are."""
    shared = [parts_of(field) for field in fields]
    parts = [part for each in shared if len(each) > 1 for part in each]
    if parts:
        write(folder / PARTS, json.dumps(field_json(parts), ensure_ascii=False))
    return len(parts)
