"""A call agrees with the truth when both say treat, or neither does."""

from __future__ import annotations

from quarterwalk.call import Sureness
from quarterwalk.demo import Tally, compare
from tests.call.made import call, reading

CLEAR_HOLD = call(reading(2, healthy=190, missing=10))
CLEAR_TREAT = call(reading(90, healthy=120, missing=80))
CLOSE_CALL = call(reading(27, healthy=170, missing=26))
NO_CALL = call(reading(2), bloom=5)


def test_calls_are_counted_by_how_sure_they_are() -> None:
    assert (CLEAR_HOLD.sure, CLEAR_TREAT.sure) == (Sureness.CLEAR, Sureness.CLEAR)
    found = compare([CLEAR_HOLD, CLEAR_TREAT, CLEAR_HOLD], [False, True, True])
    assert found.tallies == (Tally(Sureness.CLEAR, calls=3, agree=2),)
    assert (found.calls, found.agree) == (3, 2)


def test_a_call_short_of_treat_and_a_call_to_treat_too_early_are_told_apart() -> None:
    found = compare([CLEAR_HOLD, CLEAR_TREAT, CLEAR_TREAT], [True, False, True])
    assert found.cautious == (0,)
    assert found.early == (1,)


def test_no_call_and_no_truth_are_left_out() -> None:
    found = compare([NO_CALL, CLEAR_HOLD, CLEAR_HOLD], [True, None, False])
    assert found.calls == 1


def test_words_of_sureness_stand_the_surest_first() -> None:
    assert CLOSE_CALL.sure is not Sureness.CLEAR
    found = compare([CLOSE_CALL, CLEAR_HOLD], [False, False])
    assert [tally.sure for tally in found.tallies] == [Sureness.CLEAR, CLOSE_CALL.sure]
