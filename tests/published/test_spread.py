"""How unlike plants of one quadrant are, and quadrants of one field, against published values."""

from __future__ import annotations

import numpy as np

from quarterwalk.reading.density import raw_dispersion
from quarterwalk.reading.evenness import evenness_p
from quarterwalk.reading.sums import cluster_sums
from tests.published.tables import numbers, read, spelled
from tests.reading.toy_field import INSECTS, NO_STOPS, sums

MOMENTS = read("moments")
DISPERSION = read("dispersion")
SPRAYS = read("sprays")
EVENNESS = read("evenness")
UNEVEN = read("uneven_field")


def dispersion_of(counts):
    """Take the counts as those of one quadrant."""
    return raw_dispersion(sums(counts, quadrant=np.zeros(counts.size, dtype=np.int64)))[0]


def published_dispersion(name):
    (value,) = (row["value"] for row in DISPERSION.rows if row["name"] == name)
    return DISPERSION.near(value)


@MOMENTS.each()
def test_variance_over_mean(row):
    counts = spelled(row["frequencies"])
    mean, variance = float(row["mean"]), float(row["variance"])
    # ours has n - 1 in the divisor: carried over by algebra where the source has n
    variance *= (counts.size - int(row["less"])) / (counts.size - 1)
    assert dispersion_of(counts) == MOMENTS.near(variance / mean)


def test_mites_on_leaves_are_twice_as_unlike_as_chance_makes_them():
    (mites,) = (row for row in MOMENTS.rows if row["name"] == "mites")
    assert dispersion_of(spelled(mites["frequencies"])) == published_dispersion("mites")


def test_the_dispersion_under_six_sprays_is_the_mean_of_the_six():
    # equal plots: the dispersion of the log-linear model is the plain mean over the sprays
    counts = np.array([numbers(row["counts"]) for row in SPRAYS.rows])
    a, spray = counts.ravel(), np.repeat(np.arange(6), 12)
    # each spray is a walk of its own, with all its plots in the first quadrant
    each = raw_dispersion(cluster_sums(a, np.ones_like(a), 4 * spray, None, 6))
    assert each.mean() == published_dispersion("sprays")


@SPRAYS.each()
def test_insects_of_a_spray_add_up_to_the_published_total(row):
    assert sums(numbers(row["counts"])[:12], quadrant=np.zeros(12, int)).a.sum() == int(
        row["total"]
    )


def test_the_invented_field_has_the_dispersion_worked_elsewhere():
    assert raw_dispersion(sums(INSECTS))[0] == published_dispersion("invented field")


@EVENNESS.each()
def test_chi_square_of_counts_against_their_shares(row):
    counts, shares = numbers(row["counts"]), numbers(row["shares"])
    # one cluster a quadrant: nothing tells the spread inside, so chance alone is allowed for
    field = sums(counts, shares, np.arange(counts.size))
    assert evenness_p(field, field, NO_STOPS)[0] == EVENNESS.near(row["p"])


@UNEVEN.each()
def test_the_invented_field_has_a_hot_corner(row):
    field = sums(INSECTS)
    assert evenness_p(field, field, NO_STOPS)[0] == UNEVEN.near(row["p"])
