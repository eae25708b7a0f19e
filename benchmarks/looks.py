"""How often days and weeks hold once plants were looked at, on invented fields and counts.

The counts are drawn as plants grow, not as the clock reads them: every field has its own
spread of plants, days a branch, first fruiting node and heat a node, plants stand in patches,
and whoever counts has a habit. Run: python -m benchmarks.looks [--fields N]
"""

from __future__ import annotations

import argparse
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from benchmarks.stages import Field, true_fields
from quarterwalk.crop import CropClock, Event, Seen, clock_for
from quarterwalk.weather import DailyWeather

LEVEL = 0.8

# Visits lie from so long before first square to so long after it. [days]
BEFORE, AFTER = 5, 21

# Twenty plants, five in a row at four places, and the share of how plants differ (as a
# variance) that a place has in common. [plants], [fraction]
PLACES, IN_A_ROW, SHARED = 4, 5, 0.5

# Chances as told are sorted into these. [fraction]
TOLD = (0.0, 0.1, 0.3, 0.5, 0.7, 0.9, 1.01)

KINDS: dict[str, tuple[str, ...]] = {
    "nothing": (),
    "nodes": ("nodes",),
    "pinheads": ("pinheads",),
    "branches": ("branches",),
    "all, weekly": ("nodes", "pinheads", "branches", "flowers"),
}

# Visits of a kind that has more than one. [days before the last]
WEEKLY = {"all, weekly": (21, 14, 7, 0)}

DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Growth:
    """How the plants of one field grow, and how its scout counts.

    Parameters
    ----------
    apart : float
        Standard deviation of plants about first square. [DD60]
    branch_days : float
        From one squaring branch to the next. [days]
    first_node, node_heat : float
        Node of the first fruiting branch, and the heat of a node. [nodes], [DD60]
    habit : float
        What this scout counts too many of branches and nodes. [count]
    """

    apart: float
    branch_days: float
    first_node: float
    node_heat: float
    habit: float


def grown(rng: np.random.Generator) -> Growth:
    """Draw one field's growth: even spreads over what is published or usual.

    Branches come every 3 days and fruiting begins at node 5 to 8 (facts of the needs); the
    spread of plants is one to five days of 15 DD60, and was never published.
    """
    return Growth(
        apart=rng.uniform(15, 75),
        branch_days=rng.uniform(2.5, 3.5),
        first_node=rng.uniform(5, 8),
        node_heat=rng.uniform(45, 65),
        habit=rng.uniform(-0.5, 0.5),
    )


def look(
    field: Field, growth: Growth, on: date, signs: Sequence[str], rng: np.random.Generator
) -> Seen | None:
    """Count twenty plants on a day; None where nothing that is asked for can be counted."""
    square = field.days[Event.FIRST_SQUARE]
    since, days = heat_since(field.weather, square, on), (on - square).days
    places = rng.normal(0, np.sqrt(SHARED), (PLACES, 1))
    plants = places + rng.normal(0, np.sqrt(1 - SHARED), (PLACES, IN_A_ROW))
    pinhead = branches = nodes = bloom = None
    if "pinheads" in signs:
        pinhead = int(np.count_nonzero(since + growth.apart * plants >= 0))
    if "branches" in signs and days >= 0:
        mean = np.maximum(0.5 + days / growth.branch_days + plants, 0).mean()
        branches = max(0.0, round(float(mean) + growth.habit * (days > 3), 1))
    if "nodes" in signs and days <= 14:
        mean = growth.first_node + since / growth.node_heat + 0.6 * plants.mean()
        nodes = max(0.0, round(float(mean) + growth.habit, 1))
    if "flowers" in signs and days >= 14:
        bloom = on >= field.days[Event.FIRST_BLOOM]
    if all(sign is None for sign in (pinhead, branches, nodes, bloom)):
        return None
    return Seen(
        on,
        nodes=nodes,
        plants=None if pinhead is None else plants.size,
        pinhead=pinhead,
        squaring_branches=branches,
        bloom=bloom,
    )


def heat_since(weather: DailyWeather, day: date, on: date) -> float:
    """Sum the heat of the days after one day through another, below 0 backwards. [DD60]"""
    heat = np.maximum((weather.tmin_f + weather.tmax_f) / 2 - 60, 0)
    first, last = sorted((weather.index_of(day), weather.index_of(on)))
    return float(heat[first + 1 : last + 1].sum()) * (1 if on >= day else -1)


def readings(fields: int, seed: int) -> Iterator[tuple[str, Field, CropClock]]:
    """Read every field by every kind of look, on its last visit."""
    rng = np.random.default_rng(seed)
    for field in true_fields(fields, rng):
        growth = grown(rng)
        days = int(rng.integers(-BEFORE, AFTER + 1))
        on = field.days[Event.FIRST_SQUARE] + timedelta(days=days)
        for kind, signs in KINDS.items():
            visits = [on - timedelta(days=back) for back in WEEKLY.get(kind, (0,))]
            looks = [look(field, growth, visit, signs, rng) for visit in visits]
            seen = [each for each in looks if each is not None]
            if seen or not signs:
                yield kind, field, clock_for(field.weather, field.planted, on=on, seen=seen)


@dataclass(slots=True)
class Held:
    """What held of the fields read by one kind of look."""

    square: list[bool]
    near: list[bool]
    called: list[bool]
    days: list[int]
    bloom: list[bool]
    stood: list[tuple[float, bool]]


def measured(fields: int, seed: int) -> dict[str, Held]:
    """Read many fields, and keep what held."""
    told = {kind: Held([], [], [], [], [], []) for kind in KINDS}
    for kind, field, clock in readings(fields, seed):
        one = told[kind]
        square, flower = field.days[Event.FIRST_SQUARE], field.days[Event.FIRST_BLOOM]
        first, last = clock.first_square
        one.square.append(inside(clock, Event.FIRST_SQUARE, square))
        one.bloom.append(inside(clock, Event.FIRST_BLOOM, flower))
        one.called.append(first <= square <= last)
        one.near.append(first - DAY <= square <= last + DAY)
        one.days.append((last - first).days + 1)
        one.stood += stood(field, clock)
    return told


def inside(clock: CropClock, event: Event, day: date) -> bool:
    """Tell whether the range printed holds the true day."""
    span = clock.odds[event].within(LEVEL)
    return span is not None and span[0] <= day <= span[1]


def stood(field: Field, clock: CropClock) -> list[tuple[float, bool]]:
    """Give the chance told of each place in the season, and whether the field stood there."""
    square, bloom, on = field.days[Event.FIRST_SQUARE], field.days[Event.FIRST_BLOOM], clock.on
    week = (on - square).days // 7 + 1
    told = clock.weeks
    places = [(told.before, on < square), (told.blooming, on >= bloom)]
    squaring = square <= on < bloom
    weeks = enumerate(told.weeks, start=1)
    return [*places, *((chance, squaring and which == week) for which, chance in weeks)]


def main() -> None:
    """Print what held, how wide it was, and whether chances came true as often as told."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--fields", type=int, default=1500)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    told = measured(options.fields, options.seed)
    print(f"{options.fields} invented fields, read {BEFORE} days before first square to {AFTER}")
    print(f"{'':13} first square  for the call  or a day off  its days  first bloom")
    for kind, held in told.items():
        shares = (statistics.fmean(each) for each in (held.square, held.called, held.near))
        cells = "".join(f"{share:14.3f}" for share in shares)
        days, bloom = statistics.fmean(held.days), statistics.fmean(held.bloom)
        print(f"{kind:12}{cells}{days:10.1f}{bloom:13.3f}")
    print("chance told of where the field stands: how often it stood there, of how many")
    for kind, held in told.items():
        print(f"{kind:12}  " + "  ".join(came_true(held.stood)))


def came_true(stood: Sequence[tuple[float, bool]]) -> Iterator[str]:
    """Give the mean chance told beside the share that came true, by how sure it was."""
    for low, high in zip(TOLD[:-1], TOLD[1:], strict=True):
        those = [pair for pair in stood if low <= pair[0] < high]
        if those:
            chance, true = (statistics.fmean(each) for each in zip(*those, strict=True))
            yield f"{chance:.2f}: {true:.2f} of {len(those)}"


if __name__ == "__main__":
    main()
