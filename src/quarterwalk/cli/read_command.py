"""``quarterwalk read``: what each walk says of its field, without a rule."""

from __future__ import annotations

import argparse

from quarterwalk.call.seen import found, losses, squares_found, unevenness, why_not_readable
from quarterwalk.cli.chosen import chosen_walks
from quarterwalk.cli.heading import heading
from quarterwalk.cli.screen import print_json, say
from quarterwalk.files.call_json import walk_json
from quarterwalk.reading import Reading, take_readings


def run(options: argparse.Namespace) -> None:
    """Read each walk and print what it says."""
    walks = chosen_walks(options.walks)
    readings = take_readings(walks.table)
    pairs = list(zip(walks.table.heads, readings, strict=True))
    if options.json:
        told = [walk_json(head, reading, level=options.level) for head, reading in pairs]
        print_json({"walks": told})
        return
    for head, reading in pairs:
        heading(head, reading)
        for sentence in _sentences(reading, options.level):
            say(sentence, indent=2)
        _quarters(reading)
        say()


def _sentences(reading: Reading, level: float) -> list[str]:
    said = [found(reading, None, level) + ".", squares_found(reading, None, level) + "."]
    said += [reason.text for reason in (*losses(reading), *unevenness(reading))]
    if reading.insects and not any(unevenness(reading)) and reading.evenness_p is not None:
        said.append("The quarters differ no more than chance would make them.")
    if reading.square_plants and not reading.set_readable:
        said.append(why_not_readable(reading))
    return said


def _quarters(reading: Reading) -> None:
    """Print the counts of each quarter as a small table."""
    unit = "sweeps" if reading.sweeps else "plants"
    say()
    print(f"  {'quarter':<9}{unit:>7}{'insects':>9}{'squares':>9}{'still good':>12}")
    for q in reading.quadrants:
        checked = q.sweeps if reading.sweeps else q.plants
        insects = str(q.insects) if q.plants else "–"
        squares = str(q.squares) if q.square_plants else "–"
        good = "–" if q.square_set is None else f"{round(100 * q.square_set)} %"
        print(f"  {q.quadrant:<9}{checked:>7}{insects:>9}{squares:>9}{good:>12}")
