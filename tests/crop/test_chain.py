"""Events follow each other as a chain of days, and nothing of a chance is lost on the way."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.crop import SEASON_DAYS, Event, load_needs
from quarterwalk.crop.chain import EARLIEST, LATEST, TOO_SOON, UNLIKE, Chain, steps_of

NEEDS = load_needs()
ORDER = list(Event)


def summed(*heat_a_day):
    """Heat summed after planting, one row for each amount a day."""
    return np.arange(SEASON_DAYS)[None, :] * np.array(heat_a_day)[:, None]


def chain(heat, known=None):
    return Chain(SEASON_DAYS, steps_of(heat, NEEDS), known or {})


def test_chances_from_one_day_to_the_next_event_add_up_to_one():
    for step in steps_of(summed(8.0, 18.0, 27.0), NEEDS).values():
        assert step.chance.sum(axis=2) + step.beyond == pytest.approx(np.ones(step.beyond.shape))
        assert step.chance.min() >= 0


@pytest.mark.parametrize("event", ORDER)
def test_a_day_has_the_chance_of_its_heat_and_its_part_of_the_floor(event):
    step, need = steps_of(summed(18.0), NEEDS)[event], NEEDS.needs[event]
    enough = NormalDist(need.mean, need.sd).cdf
    day = round(need.mean / 18)
    days = LATEST[event] - EARLIEST[event] + 1
    floor = UNLIKE * (1 - TOO_SOON) / days
    by_hand = (1 - UNLIKE) * (enough(18 * day) - enough(18 * (day - 1))) + floor
    assert step.chance[0, 0, day - 1] == pytest.approx(by_hand, abs=1e-9)


@pytest.mark.parametrize("event", ORDER)
def test_a_day_that_is_too_soon_has_a_hundredth_of_the_floor(event):
    floor = steps_of(summed(0.0), NEEDS)[event].chance[0, 0, : LATEST[event]]
    early = EARLIEST[event] - 1
    assert floor.sum() == pytest.approx(UNLIKE, abs=1e-6)
    assert floor[:early].sum() == pytest.approx(UNLIKE * TOO_SOON, abs=1e-6)
    assert floor[early] > 2 * floor[early - 1]


def test_no_event_comes_on_the_day_of_the_one_before():
    told = chain(summed(18.0)).forward()
    for place, event in enumerate(ORDER):
        assert told[event][0, : place + 1].sum() == 0


def test_a_cold_season_ends_before_its_events():
    told = chain(summed(0.0)).forward()
    assert told[Event.CUTOUT][0, -1] > 0.99


@given(a_day=st.floats(4, 28))
@settings(max_examples=15, deadline=None)
def test_every_event_falls_on_some_day_or_beyond(a_day):
    for weights in chain(summed(a_day)).forward().values():
        assert weights.sum() == pytest.approx(1)


@given(
    event=st.sampled_from(ORDER[:3]),
    first=st.integers(3, 120),
    long=st.integers(0, 60),
    a_day=st.floats(8, 26),
)
@settings(max_examples=25, deadline=None)
def test_forth_and_back_give_what_was_seen_the_same_chance_at_every_event(
    event, first, long, a_day
):
    known = np.zeros((1, SEASON_DAYS + 1))
    known[:, first : first + long + 1] = 1
    told = chain(summed(a_day), {event: known})
    ahead, behind = told.forward(), told.backward()
    totals = [(ahead[each] * behind[each]).sum() for each in ORDER]
    assert totals == pytest.approx([totals[0]] * 4, rel=1e-9)


def test_each_member_runs_a_chain_of_its_own():
    both = chain(summed(12.0, 20.0)).forward()[Event.FIRST_SQUARE]
    alone = [chain(summed(a_day)).forward()[Event.FIRST_SQUARE][0] for a_day in (12.0, 20.0)]
    assert both == pytest.approx(np.array(alone))
