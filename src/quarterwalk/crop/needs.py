"""What cotton needs from one event to the next, and how plants tell where they stand."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from quarterwalk.guideline import Source, SourceKind


class Event(StrEnum):
    """The days of a season that are told apart, in their order."""

    EMERGENCE = "emergence"
    FIRST_SQUARE = "first_square"
    FIRST_BLOOM = "first_bloom"
    CUTOUT = "cutout"


@dataclass(frozen=True, slots=True)
class NeedSource(Source):
    """Where a need comes from, with its author, and whether its title was recorded.

    Where it was not, the title says what the document is about.
    """

    author: str = ""
    titled: bool = True


@dataclass(frozen=True, slots=True)
class Need:
    """Heat from the event before to this one, as fields differ in it.

    Parameters
    ----------
    mean, sd : float
        Of a normal distribution over fields. [heat units]
    unit, why : str
        What it counts from, and how it follows from its sources.
    sources : tuple of NeedSource
        Where it comes from.
    """

    mean: float
    sd: float
    unit: str
    why: str
    sources: tuple[NeedSource, ...]


@dataclass(frozen=True, slots=True)
class Growth:
    """One number by which plants tell where they stand.

    Parameters
    ----------
    value : float
        In `unit`.
    sd : float
        How fields differ in it; 0 where it is taken as fixed.
    unit, why : str
        What it counts, and why it is what it is.
    source : NeedSource
        Where it comes from.
    """

    value: float
    sd: float
    unit: str
    why: str
    source: NeedSource


@dataclass(frozen=True, slots=True)
class Needs:
    """All that a crop's clock goes by; meaning and sources stand in the data file.

    Parameters
    ----------
    method : str
        Name of the heat-unit method that the needs were published for.
    base_f : float
        Heat counts from here. [°F]
    needs : mapping of Event to Need
        From each event to the next.
    growth : mapping of str to Growth
        By name.
    """

    method: str
    base_f: float
    needs: Mapping[Event, Need]
    growth: Mapping[str, Growth]

    def value(self, name: str) -> float:
        """Give a number of growth by its name."""
        return self.growth[name].value

    def with_share(self, share: float) -> Needs:
        """Take another share of plants with a pinhead square as first square.

        Parameters
        ----------
        share : float
            Above 0 and below 1; half is usual. [fraction]

        Returns
        -------
        Needs

        Raises
        ------
        ValueError
            If the share is not between 0 and 1.
        """
        if not 0 < share < 1:
            raise ValueError(f"the share of plants must lie between 0 and 1, got {share}.")
        half = replace(self.growth["half"], value=share)
        return replace(self, growth=MappingProxyType({**self.growth, "half": half}))

    def sd(self, name: str) -> float:
        """Give how fields differ in a number of growth."""
        return self.growth[name].sd


@cache
def load_needs() -> Needs:
    """Take the needs from the package's own data.

    Returns
    -------
    Needs
        The same every time.
    """
    text = (files("quarterwalk.crop") / "needs.toml").read_text(encoding="utf-8")
    content = tomllib.loads(text)
    sources = {key: _source(key, table) for key, table in content["sources"].items()}
    needs = {
        Event(name): Need(
            float(table["mean"]),
            float(table["sd"]),
            table["unit"],
            table["why"],
            tuple(sources[key] for key in table["source"]),
        )
        for name, table in content["needs"].items()
    }
    growth = {
        name: Growth(
            float(table["value"]),
            float(table.get("sd", 0)),
            table["unit"],
            table["why"],
            sources[table["source"]],
        )
        for name, table in content["growth"].items()
    }
    heat = content["heat"]
    return Needs(
        heat["method"]["value"],
        float(heat["base_f"]["value"]),
        MappingProxyType(needs),
        MappingProxyType(growth),
    )


def _source(key: str, table: Mapping[str, Any]) -> NeedSource:
    return NeedSource(
        key,
        table["title"],
        place=table.get("place", ""),
        year=table.get("year"),
        kind=SourceKind(table["kind"]),
        author=table.get("author", ""),
        titled=table.get("titled", True),
    )
