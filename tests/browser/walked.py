"""What somebody saw on a walk, kept by the test itself, and written as a walk table."""

from __future__ import annotations

import csv
import random
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from tests.browser.hand import Counts, Place

COLUMNS = (
    "field", "date", "scout", "quadrant", "stop", "plant", "adults", "nymphs",
    "healthy", "missing", "blasted", "flared", "skipped",
)  # fmt: skip


@dataclass
class Walked:
    """The plants of one walk in the order in which they were seen."""

    field: str
    date: str
    scout: str
    rows: list[dict[str, str | int]] = field(default_factory=list)

    def saw(self, place: Place, seen: Counts) -> None:
        squares = dict(zip(COLUMNS[8:12], seen.squares or (), strict=False))
        self._add(place, adults=seen.adults, nymphs=seen.nymphs, **squares)

    def skipped(self, place: Place) -> None:
        self._add(place, skipped="1")

    def undone(self) -> None:
        """Take the last one back."""
        del self.rows[-1]

    def _add(self, place: Place, **seen: str | int) -> None:
        number = 1 + sum(row["stop"] == place.stop for row in self.rows)
        head = {"field": self.field, "date": self.date, "scout": self.scout}
        where = {"quadrant": place.quadrant, "stop": place.stop, "plant": number}
        self.rows.append({**head, **where, **seen})

    def checked(self) -> Counter[str]:
        """Count the plants looked at in each quarter."""
        return Counter(str(row["quadrant"]) for row in self.rows if "skipped" not in row)

    def write(self, to: Path) -> Path:
        with to.open("w", newline="", encoding="utf-8") as file:
            table = csv.DictWriter(file, COLUMNS)
            table.writeheader()
            table.writerows(self.rows)
        return to


def seen_on(dice: random.Random, *, squares: bool) -> Counts:
    """Invent what one plant shows: an insect on one in six, a square in eight lost."""
    adults = dice.choice((1, 2)) if dice.random() < 0.10 else 0
    nymphs = dice.choice((1, 1, 3)) if dice.random() < 0.08 else 0
    if not squares:
        return Counts(adults, nymphs)
    states = dice.choices(range(4), (88, 6, 4, 2), k=dice.randint(3, 7))
    healthy, missing, blasted, flared = (states.count(state) for state in range(4))
    return Counts(adults, nymphs, (healthy, missing, blasted, flared))
