"""Evenness of the quadrants."""

from __future__ import annotations

import numpy as np
import pytest

from quarterwalk.reading.evenness import evenness_p
from tests.reading.toy_field import INSECTS, NO_STOPS, QUADRANT, STOP, STOPS, sums


def p_of(insects, quadrant=QUADRANT):
    plants = sums(insects, quadrant=quadrant)
    return evenness_p(plants, plants, NO_STOPS)[0]


def test_the_invented_field_has_the_p_worked_for_it_elsewhere():
    # .002682 by an independent prototype; the exact permutation test gives .002846
    assert p_of(INSECTS) == pytest.approx(0.002682, abs=1e-6)


def test_equal_quadrants_are_as_even_as_can_be():
    assert p_of(np.tile([1, 0, 0, 0, 0], 20)) == pytest.approx(1.0)


def test_no_insect_speaks_for_no_hot_corner():
    assert p_of(np.zeros(100, dtype=int)) == 1.0


@pytest.mark.parametrize("rows", [0, 1, 30])
def test_one_quadrant_or_none_has_nothing_to_compare(rows):
    assert np.isnan(p_of(np.ones(rows, dtype=int), np.full(rows, 2)))


def test_two_quadrants_are_compared_with_each_other():
    # 10 against 0 of 20 plants each, one insect a plant: chi-square 10 on 1, p .00157
    insects = [*[1, 0] * 10, *[0] * 20]
    assert p_of(insects, np.repeat([0, 3], 20)) == pytest.approx(0.001565, abs=1e-5)


def test_stops_that_are_alike_make_a_hot_corner_less_sure():
    insects = np.repeat(np.array([3, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0]), 5)
    plants, stops = sums(insects), sums(insects, stop=STOP)
    assert evenness_p(plants, stops, STOPS)[0] > 3 * evenness_p(plants, stops, NO_STOPS)[0]
