"""Write made-up walks down as scouts and their spreadsheets do: no two alike."""

from __future__ import annotations

import csv
import io
from random import Random

from tests.oracle.plain import Crop, Options

Row = dict[str, str]
LOOSE = {"adults", "nymphs", "healthy", "missing", "blasted", "flared", "stop", "plant"}


def span(crop: Crop) -> str:
    return f"{crop.first}/{crop.last}" if crop.last > crop.first else f"{crop.first}"


def plantings_of(crops: dict[str, Crop]) -> str:
    lines = ["field,planted,first_square,bloom,treated"]
    for name, crop in crops.items():
        treated = " ".join(map(str, crop.treated))
        lines.append(f"{name},,{span(crop)},{crop.bloom or ''},{treated}")
    return "\n".join(lines) + "\n"


def arguments_of(options: Options) -> list[str]:
    said = ["--guideline", options.guideline]
    if options.line is not None:
        said += ["--line", str(float(options.line))]
    if "" in options.crops:
        crop = options.crops[""]
        said += ["--first-square", span(crop)]
        said += ["--bloom", str(crop.bloom)] if crop.bloom else []
        said += ["--treated", str(crop.treated[0])] if crop.treated else []
    return said


def written(random: Random, rows: list[Row]) -> str:
    """Write the rows as scouts and their spreadsheets do: no two alike."""
    must = ["field", "date", "quadrant", "plant", "adults", "nymphs"]
    names = must + sorted({name for row in rows for name in row if row[name]} - set(must))
    if random.random() < 0.3:
        random.shuffle(names)
    if random.random() < 0.1:
        names.append("weather")
    messy = random.random() < 0.3
    heads = [random.choice((n, n.upper(), f" {n.title()} ")) if messy else n for n in names]
    end, separator = random.choice(("\n", "\r\n")), random.choice(",,,;\t")
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=separator, lineterminator=end)
    writer.writerow(heads)
    for row in rows:
        writer.writerow([cell(random, name, row.get(name, ""), messy=messy) for name in names])
    return random.choice(("", "", "\ufeff")) + out.getvalue()


def cell(random: Random, name: str, value: str, *, messy: bool) -> str:
    if not messy or not value:
        return value
    if name == "quadrant":
        value = random.choice((value.lower(), value.title(), value))
    if name in LOOSE and random.random() < 0.2:
        value += ".0"
    return f" {value} " if random.random() < 0.2 else value
