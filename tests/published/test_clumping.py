"""How clumped counts are, against published data and fits."""

from __future__ import annotations

import numpy as np
from scipy.stats import nbinom

from quarterwalk.reading.clumping import fit_clumping
from tests.published.tables import read, spelled
from tests.reading.toy_field import INSECTS

CLUMPING = read("clumping")
NO_CLUMPING = read("no_clumping")
MOMENT_K = read("moment_k")
MITES = read("mites")
INVENTED = read("invented_field")


@CLUMPING.each()
def test_the_fit_is_the_published_one(row):
    fit = fit_clumping(spelled(row["frequencies"]))
    assert fit.mean == CLUMPING.near(row["mean"])
    assert fit.k == CLUMPING.near(row["k"])
    if row["k_error"]:
        assert fit.k_error == CLUMPING.near(row["k_error"])
    if row["log_likelihood"]:
        assert fit.log_likelihood == CLUMPING.near(row["log_likelihood"])


@NO_CLUMPING.each()
def test_counts_no_more_unlike_than_chance_have_no_finite_k(row):
    fit = fit_clumping(spelled(row["frequencies"]))
    assert fit.mean == NO_CLUMPING.near(row["mean"])
    assert fit.k == np.inf


@MOMENT_K.each()
def test_k_from_mean_and_variance(row):
    counts = spelled(row["frequencies"])
    fit, k, less = fit_clumping(counts), float(row["k"]), int(row["less"])
    # ours has n - 1 in the divisor: carried over by algebra where the source has n
    variance = (fit.mean + fit.mean**2 / k) * (counts.size - less) / (counts.size - 1)
    assert fit.moment_k == MOMENT_K.near(fit.mean**2 / (variance - fit.mean))


@MITES.each()
def test_as_many_leaves_are_expected_as_the_paper_expects(row):
    fit = fit_clumping(np.repeat(*np.array([[r["mites"], r["leaves"]] for r in MITES.rows], int).T))
    leaves = 150 * nbinom.pmf(int(row["mites"]), fit.k, fit.k / (fit.k + fit.mean))
    assert leaves == MITES.near(row["expected"])


def test_the_invented_field_is_as_clumped_as_another_program_finds_it():
    fit = fit_clumping(INSECTS)
    value = {row["quantity"]: row["value"] for row in INVENTED.rows}
    assert fit.k == INVENTED.near(value["k"])
    assert fit.log_likelihood == INVENTED.near(value["k_ll"])
