"""What a heat index means for people who walk a field, and what is usually done about it.

The bands, and what full sun adds, stand with their sources in ``heat.toml``.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType

import numpy as np

from quarterwalk.guideline.rule import Source, SourceKind
from quarterwalk.weather.daily import FloatArray
from quarterwalk.weather.heat_index import heat_index
from quarterwalk.words import phrase


class HeatBand(StrEnum):
    """Risk to people at work outdoors, by the heat index in the shade."""

    LOWER = "lower"
    MODERATE = "moderate"
    HIGH = "high"
    VERY_HIGH = "very-high"
    """Very high to extreme."""


@dataclass(frozen=True, slots=True)
class HeatRule:
    """The bands, what sun adds, and where each number comes from.

    Parameters
    ----------
    moderate_from_f, high_from_f, very_high_over_f : float
        Borders of the bands; the last one itself is still high. [°F]
    sun_adds_f : float
        At most. [°F]
    bands_in_sun : int
        How many bands hotter the actions are in direct sun. [count]
    sources : mapping of str to Source
        By the name of the number.
    """

    moderate_from_f: float
    high_from_f: float
    very_high_over_f: float
    sun_adds_f: float
    bands_in_sun: int
    sources: Mapping[str, Source]


@cache
def load_heat_rule() -> HeatRule:
    """Take the bands from the package's own data.

    Returns
    -------
    HeatRule
        The same one every time.
    """
    text = (files("quarterwalk.weather") / "heat.toml").read_text(encoding="utf-8")
    content = tomllib.loads(text)
    told = {
        key: Source(key, table["title"], place=table.get("place", ""),
                    kind=SourceKind(table["kind"]))
        for key, table in content.pop("sources").items()
    }  # fmt: skip
    numbers = {name: table for group in content.values() for name, table in group.items()}
    return HeatRule(
        moderate_from_f=float(numbers["moderate"]["from"]),
        high_from_f=float(numbers["high"]["from"]),
        very_high_over_f=float(numbers["very-high"]["over"]),
        sun_adds_f=float(numbers["most_added"]["value"]),
        bands_in_sun=int(numbers["bands_in_sun"]["value"]),
        sources=MappingProxyType({name: told[t["source"]] for name, t in numbers.items()}),
    )


def in_full_sun(index_f: FloatArray | float) -> FloatArray:
    """Give how hot it may feel at most out of the shade.

    Parameters
    ----------
    index_f : float array
        Heat index in the shade. [°F]

    Returns
    -------
    float array
        [°F]
    """
    return np.asarray(index_f, np.float64) + load_heat_rule().sun_adds_f


def heat_band(index_f: float) -> HeatBand | None:
    """Give the band of risk at work outdoors.

    Parameters
    ----------
    index_f : float
        Heat index in the shade. [°F]

    Returns
    -------
    HeatBand or None
        None where the heat index is not known.
    """
    rule = load_heat_rule()
    if math.isnan(index_f):
        return None
    if index_f > rule.very_high_over_f:
        return HeatBand.VERY_HIGH
    if index_f >= rule.high_from_f:
        return HeatBand.HIGH
    return HeatBand.MODERATE if index_f >= rule.moderate_from_f else HeatBand.LOWER


def band_in_sun(band: HeatBand) -> HeatBand:
    """Give the band whose cautions hold where there is no shade.

    Parameters
    ----------
    band : HeatBand
        By the heat index in the shade.

    Returns
    -------
    HeatBand
        The next hotter one; the hottest stays.
    """
    bands = list(HeatBand)
    return bands[min(bands.index(band) + load_heat_rule().bands_in_sun, len(bands) - 1)]


def heat_cautions(index_f: float, *, at: str, known: str = "") -> tuple[str, ...]:
    """Word what is usually done at a heat index by people who walk an open field.

    Parameters
    ----------
    index_f : float
        The highest of the day, or of the hours that are known; in the shade. [°F]
    at : str
        Its hour, as a clock has it.
    known : str
        The hours that are known, where it may get hotter at one that is not; else empty.

    Returns
    -------
    tuple of str
        What the number stands for, then the cautions of the next hotter band, as a cotton
        field has no shade, then whose rules go first. Where it may get hotter, the cautions
        are those of every band: what is not known makes none of them milder. None of it
        where the heat index is not known; for that there is `cautions_without_number`.
    """
    band = heat_band(index_f)
    if band is None:
        return ()
    rungs = len(HeatBand) if known else list(HeatBand).index(band_in_sun(band)) + 1
    what = _of_the_hours_known(index_f, at, known) if known else _what_it_is(index_f, at)
    return (what, *_rungs(rungs), _whose_rules())


def cautions_without_number(air_f: float = math.nan) -> tuple[str, ...]:
    """Word what is usually done where nobody knows how hot it feels.

    Parameters
    ----------
    air_f : float
        The highest air temperature that is known; NaN where none is. [°F]

    Returns
    -------
    tuple of str
        How hot air of that temperature feels when it is driest, where it is known. If that
        is a heat of the lowest band, or not known, the cautions of the mildest days in the
        sun, and what is added in greater heat; else those of every band. Then whose rules
        go first.
    """
    hotter = phrase(
        "In greater heat also: walk early in the morning or towards evening, fix before you set"
        " out when you rest, and put off every walk that can wait."
    )
    least = round(float(heat_index(air_f, 0.0)), 0)
    said = () if math.isnan(least) else (_of_the_air(air_f, least),)
    if heat_band(least) not in (None, HeatBand.LOWER):
        return (*said, *_rungs(len(HeatBand)), _whose_rules())
    mildest = list(HeatBand).index(band_in_sun(HeatBand.LOWER)) + 1
    return (*said, *_rungs(mildest), hotter, _whose_rules())


def _of_the_air(air_f: float, least_f: float) -> str:
    return phrase(
        "The air is known to reach {air} °F. Were it as dry as can be, that would feel like"
        " {shade} °F in the shade, and in full sun as hot as {sun} °F; in damper air it is hotter.",
        air=round(air_f),
        shade=round(least_f),
        sun=round(float(in_full_sun(least_f))),
    )


def _rungs(count: int) -> tuple[str, ...]:
    return tuple(line for rung in _cautions()[:count] for line in rung)


def _what_it_is(index_f: float, at: str) -> str:
    return phrase(
        "The highest heat index is {shade} °F, at {at}. It is for shade; in full sun it may feel"
        " as hot as {sun} °F.",
        shade=round(index_f),
        at=at,
        sun=round(float(in_full_sun(index_f))),
    )


def _of_the_hours_known(index_f: float, at: str, known: str) -> str:
    return phrase(
        "Of the hours known, {known}, the highest heat index is {shade} °F, at {at};"
        " it may get hotter, so the cautions are those of the hottest days. The heat index is for"
        " shade; in full sun {shade} °F may feel as hot as {sun} °F.",
        known=known,
        shade=round(index_f),
        at=at,
        sun=round(float(in_full_sun(index_f))),
    )


def _whose_rules() -> str:
    return phrase(
        "These are usual cautions only: your employer's rules and local law come before them."
    )


def _cautions() -> tuple[tuple[str, ...], ...]:
    """Word what each band adds to the one before it, the lower one first."""
    emergency = phrase(
        "Someone is confused, faints or stops sweating in the heat: call emergency services at"
        " once, move them to shade, cool them with water, and stay with them."
    )
    return (
        (
            emergency,
            phrase("Take more water than you think you need, and know where the next shade is."),
            phrase(
                "In the first days of heat, or after a break, walk less and add a little daily."
            ),
        ),
        (
            phrase("Drink a little often, before you are thirsty."),
            phrase("Rest in the shade between fields, longer as it gets hotter."),
            phrase("Walk with someone, or have someone who calls you; watch each other."),
            phrase(
                "Know the signs: headache, dizziness, sickness, cramps, weakness, hot skin."
                " With any of them stop, go to the shade and drink."
            ),
        ),
        (
            phrase("Walk early in the morning or towards evening if the field can wait."),
            phrase("Fix before you set out when you rest, and keep to it."),
        ),
        (phrase("Put off every walk that can wait for a cooler day or hour."),),
    )
