"""The worked example of the call page: by hand, by another program, and by the tool alike."""

from __future__ import annotations

from datetime import date
from statistics import NormalDist

import pytest
from scipy import stats

from quarterwalk import CropDates, load_guideline, make_call, read_walks, stage_on, take_reading
from quarterwalk.call import Call
from tests.docs.said import DOCS

SHAPE, RATE = 18.15, 63.02  # worked on the page "Insects per 100"
KEPT, LOST = 231.12, 34.53  # worked on the page "Square set and blasted share"
LINE = 0.25


def home_40(first_square: date) -> Call:
    walk = read_walks(DOCS / "examples" / "home-40.csv").table.walk(0)
    stage = stage_on(walk.date, CropDates(first_square))
    rule = load_guideline("southern-high-plains")
    return make_call(take_reading(walk), stage, rule, on=walk.date)


@pytest.mark.parametrize(
    ("first_square", "floor", "verdict"),
    [(date(2026, 6, 15), 0.85, "look-sooner"), (date(2026, 6, 20), 0.90, "treat")],
)
def test_the_chances_are_those_of_the_gamma_and_the_beta_on_the_page(first_square, floor, verdict):
    made = home_40(first_square)
    over = stats.gamma(SHAPE, scale=1 / RATE).sf(LINE)
    under = stats.beta(KEPT, LOST).cdf(floor)
    assert made.verdict == verdict
    assert made.chances.over == pytest.approx(over, abs=0.001)
    assert made.chances.under == pytest.approx(under, abs=0.001)
    assert made.chances.treat == pytest.approx(over * under, abs=0.001)
    assert made.sure == "close"


def test_the_normal_table_comes_near():
    insects = NormalDist(SHAPE / RATE, SHAPE**0.5 / RATE)
    n, share = KEPT + LOST, KEPT / (KEPT + LOST)
    squares = NormalDist(share, (share * (1 - share) / (n + 1)) ** 0.5)
    assert 1 - insects.cdf(LINE) == pytest.approx(0.71, abs=0.005)
    assert squares.cdf(0.85) == pytest.approx(0.166, abs=0.005)
    made = home_40(date(2026, 6, 15))
    assert made.chances.treat == pytest.approx(0.71 * 0.166, abs=0.01)


def test_twenty_more_plants_are_just_not_enough_and_24_are():
    def chance_to_treat(times: float) -> float:
        longer = stats.gamma(times * (SHAPE - 0.5) + 0.5, scale=1 / (times * RATE))
        squares = stats.beta(times * (KEPT - 0.5) + 0.5, times * (LOST - 0.5) + 0.5)
        return longer.sf(LINE) * squares.cdf(0.85)

    assert 1 - chance_to_treat(1.20) < 0.9 <= 1 - chance_to_treat(1.24)
    settle = home_40(date(2026, 6, 15)).settle
    assert settle is not None
    assert "24 more plants" in settle.text


def test_in_week_2_the_call_is_close_however_insects_and_squares_hang_together():
    chances = home_40(date(2026, 6, 15)).chances
    assert 0.6 <= 1 - min(chances.over, chances.under) < 0.9
