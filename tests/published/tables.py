"""Reads the tables of other people's numbers that stand beside the tests."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest

HERE = Path(__file__).parent
HEADER = ("what", "source", "retrieved", "tolerance")


@dataclass(frozen=True)
class Table:
    """One table: what it is, where it is from, how near to come, and its rows."""

    name: str
    header: dict[str, str]
    rows: tuple[dict[str, str], ...]

    def near(self, value: str | float) -> Any:
        """Stand for a value of this table, as near as its header says."""
        kind, size = self.header["tolerance"].split()[:2]
        if kind == "digits,":
            decimals = len(str(value).partition(".")[2])
            kind, size = "absolute", f"1e-{decimals}"
        name = {"absolute": "abs", "relative": "rel"}[kind]
        # the other of the two must not help
        return pytest.approx(float(value), **{"abs": 0.0, "rel": 0.0, name: float(size)})

    def each(self) -> Any:
        """Run a test once for each row."""
        names = [" ".join(list(row.values())[:3])[:40] for row in self.rows]
        return pytest.mark.parametrize("row", self.rows, ids=names)


def read(name: str) -> Table:
    """Read a table by its name without the ending."""
    lines = (HERE / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    header: dict[str, str] = {}
    for line in (line[1:].strip() for line in lines if line.startswith("#")):
        key, colon, text = line.partition(":")
        if colon and key in HEADER:
            header[key] = text.strip()
        else:
            header[list(header)[-1]] += f" {line}"
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    return Table(name, header, tuple(rows))


def numbers(text: str) -> np.ndarray:
    """Turn numbers parted by spaces into an array."""
    return np.array(text.split(), dtype=np.int64)


def spelled(frequencies: str) -> np.ndarray:
    """Spell out counts 0, 1, 2... that were seen so often."""
    often = numbers(frequencies)
    return np.repeat(np.arange(often.size), often)
