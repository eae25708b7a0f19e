"""What one field's season stands on: the weather, heat so far, needs with their sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from statistics import NormalDist

import numpy as np

from quarterwalk.crop import RANGE, CropClock, Event, load_needs
from quarterwalk.crop.needs import NeedSource
from quarterwalk.guideline import Guideline, SourceKind
from quarterwalk.report.names import plain
from quarterwalk.report.season_dates import day_told
from quarterwalk.report.season_stands import planting_told
from quarterwalk.report.season_weather import weather_used
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.words import noted, phrase

_NEEDS = {
    Event.EMERGENCE: noted(
        "Emergence takes {mean} heat units from planting, {low} to {high} in 8 of 10 fields"
        " [{sources}]."
    ),
    Event.FIRST_SQUARE: noted(
        "First square takes {mean} from emergence, {low} to {high} in 8 of 10 fields [{sources}]."
    ),
    Event.FIRST_BLOOM: noted(
        "First bloom takes {mean} from first square, {low} to {high} in 8 of 10 fields [{sources}]."
    ),
    Event.CUTOUT: noted(
        "Cutout takes {mean} from first bloom, {low} to {high} in 8 of 10 fields [{sources}]."
    ),
}


def season_footing(
    clock: CropClock,
    weather: FieldWeather,
    *,
    guideline: Guideline | None = None,
    replanted: bool = False,
) -> tuple[str, ...]:
    """Say what a season stands on.

    Parameters
    ----------
    clock : CropClock
        The season.
    weather : FieldWeather
        The station that it goes by.
    guideline : Guideline or None
        The rule of the region; None where it is not known.
    replanted : bool
        Whether an earlier stand was planted over.

    Returns
    -------
    tuple of str
        A paragraph each, in the language spoken.
    """
    planting = planting_told(clock, replanted=replanted)
    told = [*weather_used(clock, weather), _heat(clock, planting)]
    if guideline is not None:
        told.append(_rule(guideline))
    return (" ".join(told), " ".join(_needs()), _sources())


def _rule(guideline: Guideline) -> str:
    return phrase(
        "Guideline: {guideline}, edition {edition}.",
        guideline=plain(guideline.name),
        edition=plain(guideline.edition),
    )


def _heat(clock: CropClock, planting: str) -> str:
    """Tell the heat units so far, beside those of other years."""
    heat = clock.heat
    day = min((clock.on - clock.planted).days, heat.known - 1)
    if day < 1:
        return phrase("No heat is known yet since {planting}.", planting=planting)
    told = float(heat.summed[0, day] - heat.heat[0, 0])
    gaps = {
        "heat": f"{told:,.0f}",
        "planting": planting,
        "day": day_told(clock.planted + timedelta(days=day), clock.on),
    }
    if not heat.years:
        return phrase("Heat units above 60 °F (DD60) since {planting}: {heat} by {day}.", **gaps)
    others = heat.others[:, 1 : day + 1].sum(axis=1)
    return phrase(
        "Heat units above 60 °F (DD60) since {planting}: {heat} by {day};"
        " usual by then: {usual}, the middle of other years.",
        usual=f"{float(np.median(others)):,.0f}",
        **gaps,
    )


def _needs() -> Iterator[str]:
    """Tell what each event needs, its sources by their numbers."""
    yield phrase("Heat units of a day: the mean of its highest and lowest temperature, less 60 °F.")
    numbers = _numbered()
    apart = NormalDist().inv_cdf((1 + RANGE) / 2)
    for event, need in load_needs().needs.items():
        yield phrase(
            _NEEDS[event],
            mean=f"{need.mean:,.0f}",
            low=f"{need.mean - apart * need.sd:,.0f}",
            high=f"{need.mean + apart * need.sd:,.0f}",
            sources=", ".join(str(numbers[source.key]) for source in need.sources),
        )


def _sources() -> str:
    cited = {s.key: s for need in load_needs().needs.values() for s in need.sources}
    told = "; ".join(f"[{number}] {_cited(cited[key])}" for key, number in _numbered().items())
    return phrase("Sources: {documents}.", documents=told)


def _numbered() -> dict[str, int]:
    """Number the sources of all needs in the order in which they are named."""
    keys = dict.fromkeys(s.key for need in load_needs().needs.values() for s in need.sources)
    return {key: number for number, key in enumerate(keys, start=1)}


def _cited(source: NeedSource) -> str:
    if source.kind is SourceKind.COMMON_PRACTICE:
        return phrase("common practice")
    if source.kind is SourceKind.OWN_RULE:
        return phrase("a rule of this project")
    if source.kind is SourceKind.FROM_MEMORY:
        return phrase("from memory, not checked")
    asides = [] if not source.author else [phrase("by {author}", author=source.author)]
    if not source.titled:
        asides.append(phrase("title not recorded"))
    title = f"{source.title} ({'; '.join(asides)})" if asides else source.title
    return replace(source, title=title).citation
