"""Everything that can happen to a field happens in the demo district."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import numpy as np
import pytest

from quarterwalk.call import Sureness, Verdict
from quarterwalk.demo import load_district, make_season
from quarterwalk.walk import Method
from tests.demo.played import Played, played, season

EDGES: dict[str, Callable[[Played], bool]] = {
    "hold, and clear": lambda p: (
        p.call.verdict is Verdict.HOLD and p.call.sure is Sureness.CLEAR and not p.call.provisional
    ),
    "hold with low set and few insects": lambda p: (
        p.call.verdict is Verdict.HOLD and {"other-causes", "set-under"} <= p.codes
    ),
    "weather loss without insects": lambda p: (
        p.call.verdict is Verdict.LOOK_SOONER and {"other-causes", "set-well-under"} <= p.codes
    ),
    "look sooner for insects near the line": lambda p: (
        p.call.verdict is Verdict.LOOK_SOONER and "insects-near" in p.codes
    ),
    "insects over, squares holding": lambda p: (
        p.call.verdict is Verdict.LOOK_SOONER and "insects-only" in p.codes
    ),
    "insects over and squares lost": lambda p: (
        p.call.verdict is Verdict.TREAT and "both-past" in p.codes
    ),
    "a call that is close": lambda p: p.call.sure is Sureness.CLOSE,
    "a call that can't tell": lambda p: p.call.sure is Sureness.CANT_TELL,
    "recently treated": lambda p: "recently-treated" in p.codes,
    "patchy": lambda p: "uneven" in p.codes,
    "thin squares in week 1": lambda p: (
        bool({"few-squares", "set-not-readable"} & p.codes) and p.call.stage.squaring_weeks == (1,)
    ),
    "squares few, but readable": lambda p: "few-squares" in p.codes,
    "squares that can't be read": lambda p: "set-not-readable" in p.codes,
    "a quadrant missing": lambda p: (
        "finish-walk" in p.codes and len({c.quadrant for c in p.walk.checks}) == 3
    ),
    "an early end at 40 to 60 plants": lambda p: (
        "few-plants" in p.codes and 40 <= p.reading.plants <= 60
    ),
    "two scouts": lambda p: len(p.walk.scouts) == 2,
    "two parts on two days": lambda p: bool(p.walk.id) and len({c.on for c in p.walk.checks}) == 2,
    "a range of days, and the week decides": lambda p: "weeks-differ" in p.codes,
    "a range of days, and the week does not matter": lambda p: "weeks-agree" in p.codes,
    "before squaring": lambda p: "before-squaring" in p.codes,
    "blooming": lambda p: "season-over" in p.codes,
    "within the published range": lambda p: (
        "within-range" in p.codes and 25 <= (p.reading.per_100 or 0) < 30
    ),
    "first bloom overdue": lambda p: "bloom-date" in p.codes,
    "a plant skipped": lambda p: (
        sum(c.skipped for c in p.walk.checks) == 1 and p.reading.plants == 100
    ),
    "a sweep net where the line is for terminals": lambda p: (
        p.walk.method is Method.SWEEP and "no-line-for-method" in p.codes
    ),
    "squares only": lambda p: "no-insect-check" in p.codes and p.reading.squares > 0,
}


@pytest.mark.parametrize("edge", EDGES)
def test_the_edge_occurs_in_the_season_that_is_shown(edge: str) -> None:
    assert any(EDGES[edge](each) for each in played(1))


MAIN = (
    "hold, and clear",
    "weather loss without insects",
    "look sooner for insects near the line",
    "insects over, squares holding",
    "insects over and squares lost",
    "recently treated",
    "patchy",
    "thin squares in week 1",
    "a quadrant missing",
    "an early end at 40 to 60 plants",
    "two parts on two days",
    "before squaring",
    "blooming",
)


@pytest.mark.parametrize("seed", [2, 3, 4, 5])
def test_the_main_outcomes_occur_whatever_the_dice(seed: int) -> None:
    lacking = [edge for edge in MAIN if not any(EDGES[edge](each) for each in played(seed))]
    assert not lacking


@pytest.mark.parametrize("seed", [1, 2, 3, 4, 5])
def test_there_are_at_least_ten_fields_and_thirty_five_walks_in_four_weeks(seed: int) -> None:
    made = season(seed)
    assert len(made.fields) >= 10
    assert len(made.walks) >= 35
    days = [each.walk.date for each in made.walks]
    assert days == sorted(days)
    assert max(days) - min(days) < timedelta(days=28)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_treated_field_is_walked_three_days_after_and_recovers(seed: int) -> None:
    (treated,) = (own for own in season(seed).fields if own.field.name == "Gin Road 120")
    (sprayed,) = treated.dates.treated
    walks = [each for each in played(seed) if each.field == "Gin Road 120"]
    before = [each for each in walks if each.walk.date < sprayed]
    after = [each for each in walks if each.walk.date > sprayed]
    assert before[-1].call.verdict is Verdict.TREAT
    assert after[0].walk.date == sprayed + timedelta(days=3)
    assert "recently-treated" in after[0].codes
    later = [each for each in after if "recently-treated" not in each.codes]
    assert later
    assert all("set-not-under" in each.codes for each in later)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_field_is_walked_again_when_its_last_call_says_so(seed: int) -> None:
    for own in season(seed).fields:
        walks = [each for each in played(seed) if each.field == own.field.name]
        for this, following in zip(walks, walks[1:], strict=False):
            look, came = this.call.next_look, min(c.on or following.walk.date
                                                  for c in following.walk.checks)  # fmt: skip
            assert look is not None
            if this.walk.date + timedelta(days=1) not in own.dates.treated:
                assert came == max(look.latest, this.walk.date + timedelta(days=1))


def test_a_full_walk_is_100_plants_in_two_loops() -> None:
    first = next(each.walk for each in played(1) if each.field == "Windmill 80")
    assert len(first.checks) == 100
    assert {(c.stop, c.plant) for c in first.checks} == {
        (stop, plant) for stop in range(1, 21) for plant in range(1, 6)
    }
    # numbered in the order of walking, as on a sketch and a sheet
    assert [c.stop for c in first.checks] == [stop for stop in range(1, 21) for _ in range(5)]
    assert len({c.quadrant for c in first.checks[:40]}) == 4


@pytest.mark.parametrize(("week", "plants"), [(1, 100), (2, 40), (3, 24)])
def test_squares_are_counted_on_fewer_plants_as_each_has_more(week: int, plants: int) -> None:
    full = [
        each.reading.square_plants
        for each in played(1)
        if each.truth.squaring_week == week and each.reading.plants == 100
    ]
    assert full
    assert set(full) == {plants}


def test_the_same_dice_give_the_same_season() -> None:
    again = make_season(load_district(), np.random.default_rng(1))
    assert again.table == season(1).table
    assert season(2).table != season(1).table
