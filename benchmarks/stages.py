"""How often 8-in-10 ranges of first square and first bloom hold, on invented station-years.

Every field draws what its cultivar and its region need as even spreads (what is published are
ranges), and its season from an invented station whose other years alone are known. The clock
knows neither. Run: python benchmarks/stages.py [--fields N]
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from quarterwalk.crop import Event, clock_for
from quarterwalk.weather import DailyWeather, Station

# Half of what cultivars and what regions differ by (Raper et al. 2023, Agronomy Journal), and
# the middles of published square-to-flower values, with half a range of 50 about each
# (National Cotton Council growth table; Cathey 1985, Beltwide; Abaye 1998). [DD60]
CULTIVAR, REGION = 85 / 2, 130 / 2
SQUARE_TO_FLOWER, ABOUT = (325, 396, 515), 75
LEVEL, READ_ON = 0.8, (0, 20, 35, 50)
YEARS, LAST_YEAR = 20, 2026


@dataclass(frozen=True, slots=True)
class Field:
    """One invented field: its station, its planting and its true days."""

    weather: DailyWeather
    planted: date
    days: dict[Event, date]


def invented_station(rng: np.random.Generator) -> DailyWeather:
    """Make a station: its own climate, warm and cool years, fronts of some days."""
    first = date(LAST_YEAR - YEARS, 1, 1)
    days = (date(LAST_YEAR, 12, 31) - first).days + 1
    swing = np.arange(days) / 365.2425 * 2 * np.pi
    level, reach = rng.uniform(58, 68), rng.uniform(17, 24)
    fronts = np.zeros(days)
    for day, shock in enumerate(rng.normal(0, rng.uniform(3, 5), days)):
        fronts[day] = (0.7 * fronts[day - 1] if day else 0.0) + shock
    years = np.repeat(rng.normal(0, 1.2, YEARS + 1), 366)[:days]
    mean = level + reach * np.sin(swing - 1.85) + fronts + years
    half = np.clip(rng.normal(rng.uniform(9, 14), 2, days), 4, 22)
    marks = np.ones(days, np.uint8)
    return DailyWeather(Station("invented"), first, mean - half, mean + half, marks)


def true_field(weather: DailyWeather, rng: np.random.Generator) -> Field | None:
    """Draw one field and find its true days; None where it stays too cold for cotton."""
    planted = date(LAST_YEAR, 4, 20) + timedelta(days=int(rng.integers(0, 45)))
    start = weather.index_of(planted)
    heat = np.maximum((weather.tmin_f + weather.tmax_f)[start:] / 2 - 60, 0)
    heat[0] = 0
    summed = np.cumsum(heat)
    emergence = rng.uniform(45, 70)
    square = emergence + 455 + rng.uniform(-CULTIVAR, CULTIVAR) + rng.uniform(-REGION, REGION)
    bloom = square + rng.choice(SQUARE_TO_FLOWER) + rng.uniform(-ABOUT, ABOUT)
    if summed[-1] < bloom or int(np.searchsorted(summed, bloom)) > 150:
        return None
    days = {
        event: planted + timedelta(days=int(np.searchsorted(summed, need)))
        for event, need in ((Event.FIRST_SQUARE, square), (Event.FIRST_BLOOM, bloom))
    }
    return Field(weather, planted, days)


def true_fields(fields: int, rng: np.random.Generator) -> Iterator[Field]:
    """Draw so many fields or a few more, up to five at a station."""
    done = 0
    while done < fields:
        weather = invented_station(rng)
        for _ in range(5):
            field = true_field(weather, rng)
            if field is not None:
                done += 1
                yield field


def held(field: Field, on: date) -> dict[Event, bool]:
    """Tell for each event whether its range, as read on a day, holds its true day."""
    clock = clock_for(field.weather, field.planted, on=on)
    told = {}
    for event, day in field.days.items():
        span = clock.odds[event].within(LEVEL)
        told[event] = span is not None and span[0] <= day <= span[1]
    return told


def coverage(fields: int, seed: int) -> dict[tuple[int, Event], float]:
    """Share of fields whose ranges held, by days since planting and event."""
    results: dict[tuple[int, Event], list[bool]] = {}
    for field in true_fields(fields, np.random.default_rng(seed)):
        for after in READ_ON:
            for event, hit in held(field, field.planted + timedelta(days=after)).items():
                results.setdefault((after, event), []).append(hit)
    return {key: statistics.fmean(hits) for key, hits in results.items()}


def timed() -> float:
    """Median seconds of one reading of the clock, weather in hand."""
    weather = invented_station(np.random.default_rng(1))
    planted = date(LAST_YEAR, 5, 5)
    times = []
    for _ in range(30):
        start = time.perf_counter()
        clock_for(weather, planted, on=planted + timedelta(days=45))
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main() -> None:
    """Print coverage by the day on which the clock was read, and how long a reading takes."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fields", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    told = coverage(options.fields, options.seed)
    print(f"{options.fields} invented fields, ranges of {LEVEL:.0%}, {YEARS} other years")
    for after in READ_ON:
        square, bloom = (told[after, event] for event in (Event.FIRST_SQUARE, Event.FIRST_BLOOM))
        print(f"read {after:2} days after planting: first square {square:.3f}, bloom {bloom:.3f}")
    print(f"one reading: {1000 * timed():.1f} ms (median of 30)")


if __name__ == "__main__":
    main()
