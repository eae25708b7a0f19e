"""The order of the stops against every order there is."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy.spatial.distance import cdist

from quarterwalk.field.tour import short_tour, tour_length
from tests.field.best_way import best_closed_way


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("count", [3, 5, 9])
def test_a_tour_is_the_shortest_there_is(count, seed):
    rng = np.random.default_rng(seed)
    places = rng.random((count, 2))
    ways = cdist(places, places)
    order = short_tour(ways, rng)
    assert tour_length(ways, order) <= best_closed_way(ways) * (1 + 1e-9)


@pytest.mark.parametrize("count", [2, 3, 13, 21])
def test_a_tour_begins_at_the_entry_and_passes_every_stop_once(count):
    rng = np.random.default_rng(count)
    places = rng.random((count, 2))
    order = short_tour(cdist(places, places), rng)
    assert order[0] == 0
    assert sorted(order) == list(range(count))


def test_a_square_lattice_of_16_is_walked_in_16_steps():
    grid = np.array(list(itertools.product(range(4), range(4))), dtype=float)
    ways = cdist(grid, grid)
    order = short_tour(ways, np.random.default_rng(0))
    assert tour_length(ways, order) == pytest.approx(16)
