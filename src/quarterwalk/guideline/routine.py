"""The field routine: how large a walk is, what can be read, and when to come back."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

from quarterwalk.guideline.rule import Source, SourceKind


@dataclass(frozen=True, slots=True)
class Rule:
    """Where one number of the routine comes from, and why it is what it is."""

    name: str
    unit: str
    why: str
    source: Source


@dataclass(frozen=True, slots=True)
class Routine:
    """The numbers of a walk that hold in every region.

    Plants, sweeps and sites are counts. [count] The shares are exact. [fraction, 0 to 1]
    `near_line` and `low_line` are shares of the line. The turnrow margin is in metres,
    the pace in metres a minute, sizes of fields in acres. What ends in days, or is a span
    `(soonest, latest)`, counts days from the walk or from first square. [days]
    """

    full_walk_plants: int
    least_plants: int
    few_plants: int
    least_per_quadrant: int
    least_sweeps_per_quadrant: int
    plants_a_stop: int
    turnrow_margin: int
    walking_pace: int
    across_rows: int
    largest_field: int
    largest_part: int
    small_field: int
    square_plants_week_2: int
    square_plants_later: int
    readable_sites: int
    thin_sites: int
    squaring_share: Fraction
    well_under: Fraction
    near_line: Fraction
    low_line: Fraction
    hold: int
    hold_low_set: int
    look_sooner: tuple[int, int]
    not_readable: int
    treated: tuple[int, int]
    not_treated: int
    finish: int
    before_squaring: int
    recently_treated: tuple[int, int]
    ask_bloom_after: int
    no_call_after: int
    week_days: int
    rules: tuple[Rule, ...]

    def rule_for(self, name: str) -> Rule:
        """Say where a number of the routine comes from.

        Parameters
        ----------
        name : str
            Name of the number, such as ``hold``. [text]

        Returns
        -------
        Rule
            Its unit, source and reason.

        Raises
        ------
        KeyError
            Where the routine has no number of that name.
        """
        for rule in self.rules:
            if rule.name == name:
                return rule
        raise KeyError(name)


@cache
def load_routine() -> Routine:
    """Take the field routine from the package's own data.

    Returns
    -------
    Routine
        The same one every time.
    """
    text = (files("quarterwalk.guideline") / "routine.toml").read_text(encoding="utf-8")
    content = tomllib.loads(text, parse_float=Decimal)
    sources = {
        key: Source(key, table["title"], kind=SourceKind(table["kind"]))
        for key, table in content.pop("sources").items()
    }
    tables = {name: table for group in content.values() for name, table in group.items()}
    rules = tuple(
        Rule(name, table["unit"], table["why"], sources[table["source"]])
        for name, table in tables.items()
    )
    return Routine(**{name: _amount(table) for name, table in tables.items()}, rules=rules)


def _amount(table: Mapping[str, Any]) -> Any:
    """Take a count, an exact share, or a span of days, as the table has it."""
    value = table["value"]
    if "to" in table:
        return (value, table["to"])
    if "of" in table:
        return Fraction(value, table["of"])
    return Fraction(value) if isinstance(value, Decimal) else value
