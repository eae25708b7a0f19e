"""What is found on the plants is what is true of the field, give or take the dice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from quarterwalk.demo import Truth, Visit, Way, load_district, rule_says_treat, true_field
from quarterwalk.demo.plants import Outing, draw_walk
from quarterwalk.guideline import load_guideline
from quarterwalk.walk import QUADRANTS, Walk

DISTRICT = load_district()
FIELDS = {field.name: field for field in DISTRICT.fields}
TRUTH = Truth(
    per_100=(10.0, 80.0, 20.0, 30.0),
    clumping=1.2,
    square_set=0.8,
    lost_as=(0.5, 0.3, 0.2),
    sites=1.6,
    squaring_week=1,
)
WALKS = 300
# Every mean below may be four standard errors off, which chance alone does about once in
# 16,000 times; the dice are fixed, so a test that passes passes always.
SLACK = 4.0


def walks(truth: Truth, *, way: Way = Way.FULL, count: int = WALKS) -> list[Walk]:
    rng = np.random.default_rng(2026)
    outing = Outing(FIELDS["Windmill 80"], date(2026, 6, 16), Visit(way), "Dace Illery")
    return [draw_walk(outing, truth, DISTRICT.nature, rng) for _ in range(count)]


@pytest.fixture(scope="module")
def drawn() -> list[Walk]:
    return walks(TRUTH)


@pytest.mark.parametrize("quadrant", QUADRANTS)
def test_insects_of_each_quadrant_have_the_true_mean(drawn: list[Walk], quadrant: str) -> None:
    found = [
        c.insects.total
        for walk in drawn
        for c in walk.checks
        if c.quadrant == quadrant and c.insects is not None
    ]
    mean = TRUTH.per_100[list(QUADRANTS).index(quadrant)] / 100  # type: ignore[arg-type]
    # the negative binomial's variance: m + m² / k (Bliss and Fisher 1953, Biometrics)
    error = np.sqrt((mean + mean**2 / TRUTH.clumping) / len(found))
    assert abs(np.mean(found) - mean) < SLACK * error


def test_insects_sit_together_as_the_true_clumping_says(drawn: list[Walk]) -> None:
    found = [
        c.insects.total
        for walk in drawn
        for c in walk.checks
        if c.quadrant == "NE" and c.insects is not None
    ]
    # the share of plants with none, (1 + m / k) ** -k, speaks of k by itself
    none = (1 + 0.8 / TRUTH.clumping) ** -TRUTH.clumping
    error = np.sqrt(none * (1 - none) / len(found))
    assert abs(np.mean(np.array(found) == 0) - none) < SLACK * error


def test_squares_have_the_true_set_and_are_lost_to_the_true_causes(drawn: list[Walk]) -> None:
    counts = [
        (c.squares.healthy, c.squares.missing, c.squares.blasted, c.squares.flared)
        for walk in drawn
        for c in walk.checks
        if c.squares is not None
    ]
    sums = np.sum(counts, axis=0)
    shares = np.array([0.8, 0.2 * 0.5, 0.2 * 0.3, 0.2 * 0.2])
    error = np.sqrt(shares * (1 - shares) / sums.sum())
    assert (np.abs(sums / sums.sum() - shares) < SLACK * error).all()


@pytest.mark.parametrize("sites", [0.4, 1.6, 4.8])
def test_plants_have_the_true_number_of_first_positions(sites: float) -> None:
    counted = [
        c.squares.sites
        for walk in walks(replace(TRUTH, sites=sites), count=60)
        for c in walk.checks
        if c.squares is not None
    ]
    # rounded down from a uniform 3 wide: its variance is under (9 + 1) / 12
    assert abs(np.mean(counted) - sites) < SLACK * np.sqrt(10 / 12 / len(counted))


def test_a_net_takes_the_stated_share_of_what_is_on_the_plants() -> None:
    found = [
        c.insects.total
        for walk in walks(TRUTH, way=Way.SWEEP)
        for c in walk.checks
        if c.quadrant == "NE" and c.insects is not None
    ]
    mean = 0.8 * DISTRICT.nature.per_sweep * 25
    error = np.sqrt((mean + mean**2 / (TRUTH.clumping * 25)) / len(found))
    assert abs(np.mean(found) - mean) < SLACK * error


def test_a_course_runs_straight_from_week_to_week() -> None:
    # Gin Road 120 on day 5: 30 + 5/7 of 32 insects; a set of 0.84 less 5/7 of 0.14
    truth = true_field(FIELDS["Gin Road 120"], DISTRICT.nature, date(2026, 6, 15), ())
    assert truth.field_per_100 == pytest.approx(30 + 32 * 5 / 7)
    assert truth.square_set == pytest.approx(0.74)
    assert truth.squaring_week == 1


@pytest.mark.parametrize(("days", "left"), [(1, 0.12), (7, 0.12), (14, 0.56), (21, 1.0)])
def test_a_spray_leaves_few_insects_for_a_week_and_they_come_back(days: int, left: float) -> None:
    field = replace(FIELDS["Windmill 80"], per_100=(40.0,) * 5)
    sprayed = date(2026, 6, 14)
    on = date(2026, 6, 14 + days) if days <= 16 else date(2026, 7, days - 16)
    truth = true_field(field, DISTRICT.nature, on, (sprayed,))
    assert truth.field_per_100 == pytest.approx(40 * left)


def test_on_the_day_of_the_spray_nothing_has_changed_yet() -> None:
    field = replace(FIELDS["Windmill 80"], per_100=(40.0,) * 5)
    sprayed = date(2026, 6, 14)
    assert true_field(field, DISTRICT.nature, sprayed, (sprayed,)).field_per_100 == 40


@pytest.mark.parametrize(
    ("per_100", "square_set", "week", "treat"),
    [
        (25.0, 0.84, 2, True),
        (24.9, 0.84, 2, False),
        (40.0, 0.86, 2, False),
        (40.0, 0.86, 1, True),
        (40.0, 0.76, 4, False),
        (40.0, 0.74, 5, True),
        (40.0, 0.50, None, None),
    ],
)
def test_the_rule_on_the_true_field_asks_for_insects_and_for_lost_squares(
    per_100: float, square_set: float, week: int | None, treat: bool | None
) -> None:
    truth = replace(TRUTH, per_100=(per_100,) * 4, square_set=square_set, squaring_week=week)
    assert rule_says_treat(truth, load_guideline("southern-high-plains")) is treat


@pytest.mark.parametrize("field", DISTRICT.fields, ids=lambda field: field.name)
def test_a_field_of_the_demo_can_be(field) -> None:  # type: ignore[no-untyped-def]
    assert sum(field.quadrants) == pytest.approx(4)
    assert sum(field.lost_as) == pytest.approx(1)
    assert len(field.per_100) == len(field.square_set) == 5
    assert all(0 < share <= 1 for share in field.square_set)
    assert field.dates.first_square <= field.squared <= field.dates.latest
    assert field.planted < field.dates.first_square
    assert field.acres <= 160
