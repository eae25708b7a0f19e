"""The order of the stops against every order there is."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy.spatial.distance import cdist

from quarterwalk.field.tour import short_tour, tour_length


def shortest_of_all(ways):
    """Find the shortest closed way by looking at every subset (Held and Karp 1962)."""
    last = len(ways) - 1
    best = np.full((1 << last, last), np.inf)
    for place in range(last):
        best[1 << place, place] = ways[0, place + 1]
    for mask in range(1, 1 << last):
        for place in range(last):
            rest = mask ^ (1 << place)
            if mask >> place & 1 and rest:
                best[mask, place] = (best[rest] + ways[1:, place + 1]).min()
    return (best[-1] + ways[1:, 0]).min()


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("count", [3, 5, 9])
def test_a_tour_is_the_shortest_there_is(count, seed):
    rng = np.random.default_rng(seed)
    places = rng.random((count, 2))
    ways = cdist(places, places)
    order = short_tour(ways, rng)
    assert tour_length(ways, order) <= shortest_of_all(ways) * (1 + 1e-9)


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
