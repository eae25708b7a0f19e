"""The rules of the table, written again from their statement: from text to exact quantities."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from fractions import Fraction as F

QUADRANTS = ("NW", "NE", "SW", "SE")
INSECTS = ("adults", "nymphs")
SQUARES = ("healthy", "missing", "blasted", "flared")


def rows_of(text: str) -> list[dict[str, str]]:
    text = text.removeprefix("\ufeff")
    header = text.splitlines()[0]
    separator = max(",;\t", key=header.count)
    lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))
    names = [name.strip().lower() for name in lines[0]]
    table = [dict(zip(names, (v.strip() for v in line), strict=False)) for line in lines[1:]]
    return [row for row in table if any(row.values())]


def whole(text: str) -> int:
    return int(F(text)) if text else 0


def counts(row: dict[str, str], names: tuple[str, ...]) -> list[int] | None:
    """Return the counts, or nothing where none of them was looked at."""
    told = [row.get(name, "") for name in names]
    return [whole(value) for value in told] if any(told) else None


def walks_of(text: str) -> list[list[dict[str, str]]]:
    walks = defaultdict(list)
    for row in rows_of(text):
        id_ = row.get("walk", "")
        walks[("id", id_) if id_ else (row["field"], row["date"])].append(row)
    return list(walks.values())


def mean(values: list[F]) -> F:
    return sum(values, F(0)) / len(values)


def reading(rows: list[dict[str, str]]) -> dict:
    """Return the quantities of one walk."""
    method = (rows[0].get("method", "") or "terminal").lower()
    kept = [row for row in rows if whole(row.get("skipped", "")) == 0]
    looked: dict[str, list] = {q: [] for q in QUADRANTS}
    squares: dict[str, list] = {q: [] for q in QUADRANTS}
    sweeps = dict.fromkeys(QUADRANTS, 0)
    for row in kept:
        quadrant = row["quadrant"].upper()
        if (found := counts(row, INSECTS)) is not None:
            looked[quadrant].append(found)
            sweeps[quadrant] += whole(row.get("sweeps", ""))
        if (seen := counts(row, SQUARES)) is not None:
            squares[quadrant].append(seen)
    effort = sweeps if method == "sweep" else {q: len(looked[q]) for q in QUADRANTS}
    plants = [p for q in QUADRANTS for p in looked[q]]
    checked = [p for q in QUADRANTS for p in squares[q]]
    density = [F(sum(map(sum, looked[q])), effort[q]) for q in QUADRANTS if looked[q]]
    sites = sum(map(sum, checked))
    return {
        "method": method,
        "plants": len(plants),
        "adults": sum(p[0] for p in plants) if plants else None,
        "nymphs": sum(p[1] for p in plants) if plants else None,
        "per_100": 100 * mean(density) if density else None,
        "square_plants": len(checked),
        "squares": sites if checked else None,
        "squares_healthy": sum(p[0] for p in checked) if checked else None,
        "square_set": share(squares, 0) if sites else None,
        "blasted_share": share(squares, 2) if sites else None,
        "set_readable": sites >= 50 and 2 * sum(sum(p) > 0 for p in checked) >= len(checked),
        "quadrants": [quadrant_reading(q, looked[q], squares[q]) for q in QUADRANTS],
        "effort": effort,
    }


def share(squares: dict[str, list], kind: int) -> F:
    """Return one kind among all sites: the ratio of the quadrants' means a plant."""
    there = [plants for plants in squares.values() if plants]
    of_kind = mean([F(sum(p[kind] for p in plants), len(plants)) for plants in there])
    return of_kind / mean([F(sum(map(sum, plants)), len(plants)) for plants in there])


def quadrant_reading(name: str, looked: list, squares: list) -> dict:
    sites = sum(map(sum, squares))
    return {
        "quadrant": name,
        "plants": len(looked),
        "insects": sum(map(sum, looked)) if looked else None,
        "squares": sites if squares else None,
        "square_set": F(sum(p[0] for p in squares), sites) if sites else None,
    }
