"""How sure a call is: chances, the words for them, and what would settle it."""

import pytest

from quarterwalk.call import Sureness, Verdict
from quarterwalk.call.chances import sureness
from quarterwalk.call.figures import odds_words
from quarterwalk.walk import Method
from tests.call.made import call, reading


def test_with_both_asked_the_chance_to_treat_is_the_product_of_the_two():
    made = call(reading(30, healthy=250, missing=50)).chances
    assert made.treat == pytest.approx(made.over * made.under)


def test_with_insects_alone_the_chance_to_treat_is_that_of_being_over():
    made = call(reading(30, healthy=250, missing=50), "oklahoma").chances
    assert (made.treat, made.under) == (made.over, None)


def test_where_a_needed_set_cannot_be_read_only_the_insects_have_a_chance():
    made = call(reading(30))
    assert (made.chances.under, made.chances.treat) == (None, None)
    assert made.chances.over is not None
    assert made.sure is sureness(1 - made.chances.over)


def test_over_several_weeks_the_chance_to_treat_is_the_mean():
    read = reading(30, healthy=264, missing=36)
    both = call(read, day=7, latest=3)
    first, second = call(read, day=6), call(read, day=7)
    assert both.chances.treat == pytest.approx((first.chances.treat + second.chances.treat) / 2)
    assert both.chances.under == first.chances.under


def test_the_blasted_share_takes_the_place_of_the_floor_in_kansas():
    read = reading(40, healthy=260, blasted=40)
    made = call(read, "kansas").chances
    assert made.treat == pytest.approx(made.over * read.blasted_odds.at_least(0.10))


def test_a_line_that_may_be_halved_is_weighed_by_the_chance_of_low_set():
    read = reading(10, method=Method.SWEEP, sweeps=1, healthy=246, missing=54)
    made = call(read, "tennessee-sweep", day=3).chances
    low = read.set_odds.below(0.80)
    full, half = read.density_odds.at_least(0.16), read.density_odds.at_least(0.08)
    assert made.treat == pytest.approx(low * half + (1 - low) * full)
    assert made.over == full


@pytest.mark.parametrize(
    ("chance", "word"),
    [(1.0, "clear"), (0.9, "clear"), (0.8999, "close"), (0.6, "close"), (0.5999, "can't tell"),
     (0.0, "can't tell"), (None, None)],
)  # fmt: skip
def test_words_for_how_sure(chance, word):
    assert sureness(chance) == (None if word is None else Sureness(word))


@pytest.mark.parametrize(
    ("chance", "words"),
    [(1.0, "better than 99 in 100"), (0.96, "better than 19 in 20"), (0.9, "about 9 in 10"),
     (0.899, "about 8 in 10"), (0.3, "about 3 in 10"), (0.05, "less than 1 in 10")],
)  # fmt: skip
def test_odds_never_round_doubt_away(chance, words):
    assert odds_words(chance) == words


def test_a_clear_call_needs_nothing_more():
    made = call(reading(2, healthy=290, missing=10))
    assert (made.sure, made.settle) == (Sureness.CLEAR, None)


def test_the_plants_that_settle_a_call_do_settle_it_if_they_show_the_same():
    small = call(reading(16, plants=(20, 20, 20, 20), healthy=240), "mid-coast")
    assert small.verdict is Verdict.TREAT
    assert small.sure is not Sureness.CLEAR
    more = int("".join(c for c in small.settle.text.split(" more")[0] if c.isdigit()))
    n = (80 + more) // 4
    grown = call(reading(round(16 * 4 * n / 80), plants=(n, n, n, n), healthy=240), "mid-coast")
    fewer = n - 3
    less = call(reading(round(16 * 4 * fewer / 80), plants=(fewer,) * 4, healthy=240), "mid-coast")
    assert grown.chances.treat > 0.88  # the clumping is estimated afresh, so not to the plant
    assert less.chances.treat < grown.chances.treat


def test_a_walk_on_its_line_is_not_settled_by_more_plants():
    made = call(reading(15), "mid-coast")
    assert made.settle.code == "settle-wait"


def test_an_unfinished_walk_is_settled_by_finishing_it():
    made = call(reading(5, plants=(10, 10, 10, 0)), "mid-coast")
    assert made.settle.text == "About 70 more plants finish the walk."
    one = call(reading(5, plants=(33, 33, 33, 0)), "mid-coast")
    assert one.settle.text == "About 1 more plant finishes the walk."


def test_squares_too_few_to_read_say_how_many_more_plants():
    # 40 first positions on 40 plants: 60 more at one a plant
    made = call(reading(30, plants=(10, 10, 10, 10), healthy=36, missing=4))
    assert made.settle.code == "settle-squares"
    assert "about 60 more plants" in made.settle.text
