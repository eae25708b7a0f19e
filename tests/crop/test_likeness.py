"""How well days agree with what was counted, worked out again from the formulas."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest

from quarterwalk.crop import SEASON_DAYS, Event, Seen, Sign, load_needs
from quarterwalk.crop.likeness import Ground, agreement, nodes_windows
from quarterwalk.crop.window import Window
from tests.crop.seasons import PLANTED, after

NEEDS = load_needs()
SQUARE, CUTOUT = Event.FIRST_SQUARE, Event.CUTOUT
GROUND = Ground(PLANTED, np.arange(SEASON_DAYS)[None, :] * 18.0, NEEDS)


def counted(event=SQUARE, **count):
    """Agreement of each day with one count on day 40, without its window."""
    return agreement(GROUND, [], [Seen(after(40), **count)])[event][0]


def ratio(told, day, other):
    return told[day] / told[other]


def test_pinheads_agree_by_how_plants_differ():
    told = counted(plants=8, pinhead=6)

    def by_hand(day):
        shares = [0.005 + 0.99 * NormalDist().cdf(18 * (40 - day) / s) for s in (25, 45, 65)]
        return sum(q**6 * (1 - q) ** 2 for q in shares)

    for day in (33, 36, 38, 39, 41):
        assert ratio(told, day, 40) == pytest.approx(by_hand(day) / by_hand(40))


def test_more_than_eight_plants_count_as_eight_with_the_same_share():
    assert counted(plants=40, pinhead=30) == pytest.approx(counted(plants=8, pinhead=6))


def test_nodes_agree_by_the_heat_since_first_square():
    told = counted(nodes=8.0)
    for day in (30, 35, 45):
        off = [8 - 6.5 - 18 * (40 - each) / 55 for each in (day, 40)]
        by_hand = np.exp(-0.5 * (off[0] ** 2 - off[1] ** 2) / 1.3**2)
        assert ratio(told, day, 40) == pytest.approx(by_hand)


def test_squaring_branches_agree_by_the_days_since_first_square():
    told = counted(squaring_branches=4.5)  # 12 days
    assert np.argmax(told) == 28
    assert ratio(told, 31, 28) == pytest.approx(np.exp(-0.5))
    assert ratio(told, 22, 28) == pytest.approx(np.exp(-2))


def test_nodes_above_white_flower_agree_by_the_heat_to_come():
    told = counted(CUTOUT, nawf=7.0)
    sd = np.hypot(2 * 40, 65)
    for day in (50, 54, 60):
        off = [(18 * (each - 40) - 260) / sd for each in (day, 56)]
        assert ratio(told, day, 56) == pytest.approx(np.exp(-0.5 * (off[0] ** 2 - off[1] ** 2)))


def test_a_window_rules_all_other_days_out():
    window = Window(SQUARE, after(31), after(40), Sign.PINHEADS, after(40))
    told = agreement(GROUND, [window], [])[SQUARE][0]
    assert np.flatnonzero(told).tolist() == list(range(31, 41))


def test_what_nobody_saw_says_nothing():
    assert agreement(GROUND, [], [Seen(after(40))]) == {}


def test_a_look_outside_the_season_is_not_counted():
    assert agreement(GROUND, [], [Seen(after(-3), nodes=5), Seen(after(250), nodes=5)]) == {}


@pytest.mark.parametrize(("nodes", "first", "last"), [(6.5, 35, 45), (3.0, 46, 55)])
def test_nodes_make_days_likely_within_eight_in_ten(nodes, first, last):
    (window,) = nodes_windows(GROUND, [Seen(after(40), nodes=nodes)])
    assert (window.first, window.last) == (after(first), after(last))


@pytest.mark.parametrize(("nodes", "day"), [(40, -1), (-400, SEASON_DAYS)])
def test_nodes_that_no_day_fits_make_a_day_outside_the_season_likely(nodes, day):
    (window,) = nodes_windows(GROUND, [Seen(after(40), nodes=nodes)])
    assert (window.first, window.last) == (after(day), after(day))


def several(event, *looks, needs=NEEDS):
    """Agreement of each day with looks of (day, counts), without their windows."""
    ground = Ground(PLANTED, GROUND.heat, needs)
    return agreement(ground, [], [Seen(after(day), **count) for day, count in looks])[event][0]


def test_counts_of_nodes_err_alike_by_the_node_of_the_first_branch():
    looks = (40, 8.0), (47, 11.0)
    told = several(SQUARE, *((day, {"nodes": nodes}) for day, nodes in looks))
    covariance = (1.3**2 - 1) * np.eye(2) + 1

    def by_hand(first):
        off = np.array([nodes - 6.5 - 18 * (day - first) / 55 for day, nodes in looks])
        return np.exp(-0.5 * off @ np.linalg.solve(covariance, off))

    for day in (28, 33, 41):
        assert ratio(told, day, 36) == pytest.approx(by_hand(day) / by_hand(36))


def test_counts_of_branches_err_alike():
    looks = (40, 3.5), (43, 4.0), (50, 7.5)
    told = several(SQUARE, *((day, {"squaring_branches": count}) for day, count in looks))
    covariance = 0.35**2 * np.eye(3) + 1 - 0.35**2

    def by_hand(first):
        off = np.array([(day - first) / 3 - (count - 0.5) for day, count in looks])
        return np.exp(-0.5 * off @ np.linalg.solve(covariance, off))

    for day in (28, 31, 35):
        assert ratio(told, day, 30) == pytest.approx(by_hand(day) / by_hand(30))


def test_nodes_above_white_flower_err_alike_by_the_heat_of_a_node():
    looks = (40, 8.0), (46, 7.2)
    told = several(CUTOUT, *((day, {"nawf": count}) for day, count in looks))
    load = np.array([40 * (count - 5) for _, count in looks])
    covariance = 65**2 * np.eye(2) + np.outer(load, load)

    def by_hand(cutout):
        off = np.array([18 * (cutout - day) - 130 * (count - 5) for day, count in looks])
        return np.exp(-0.5 * off @ np.linalg.solve(covariance, off))

    for day in (55, 60, 66):
        assert ratio(told, day, 62) == pytest.approx(by_hand(day) / by_hand(62))


def test_shares_of_one_field_share_how_its_plants_differ():
    looks = (38, 2), (41, 6)
    told = several(SQUARE, *((day, {"plants": 8, "pinhead": have}) for day, have in looks))

    def by_hand(first):
        total = 0.0
        for s in (25, 45, 65):
            shares = [0.005 + 0.99 * NormalDist().cdf(18 * (day - first) / s) for day, _ in looks]
            pairs = zip(shares, looks, strict=True)
            total += np.prod([q**have * (1 - q) ** (8 - have) for q, (_, have) in pairs])
        return total

    for day in (36, 38, 41):
        assert ratio(told, day, 39) == pytest.approx(by_hand(day) / by_hand(39))


def test_no_node_says_nothing_beside_a_count_of_some():
    """It would be none on any day before there are leaves, whoever counts."""
    some = (36, {"nodes": 5.5})
    alone, beside = (several(SQUARE, *looks) for looks in ([some], [(2, {"nodes": 0.0}), some]))
    assert beside == pytest.approx(alone, abs=1e-4)
    late = several(SQUARE, (34, {"nodes": 0.0}), some)
    assert late[30] / late[42] < alone[30] / alone[42]


def test_ten_looks_at_nodes_tell_little_more_than_two():
    def spread(days):
        told = several(SQUARE, *((day, {"nodes": 6.5 + 18 * (day - 35) / 55}) for day in days))
        chance, at = told / told.sum(), np.arange(told.size)
        return float(np.sqrt(chance @ at**2 - (chance @ at) ** 2))

    assert spread(range(30, 40)) > 0.85 * spread((33, 37))


def test_another_share_for_first_square_leaves_cutout_as_it_is():
    fewer = several(CUTOUT, (40, {"nawf": 7.0}), needs=NEEDS.with_share(0.2))
    assert fewer == pytest.approx(counted(CUTOUT, nawf=7.0))


def test_no_true_leaf_only_says_that_first_square_is_not_near():
    told = counted(true_leaves=0.0)
    assert told[70] == pytest.approx(told[90])
    assert told[45] < 0.01 * told[70]
