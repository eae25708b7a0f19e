"""How alike those of one litter, family or plant fare, against published data and fits."""

from __future__ import annotations

import numpy as np

from quarterwalk.reading.clumping import fit_likeness
from tests.published.tables import read
from tests.reading.toy_field import LOST, SQUARES

LIKENESS = read("likeness")
FAMILIES = read("families")
FAMILIES_LIKELIHOOD = read("families_likelihood")
INVENTED = read("invented_field")


def fitted(data):
    """Fit so many/of so many, *times seen."""
    rows = []
    for item in data.split():
        share, _, times = item.partition("*")
        rows += [[int(number) for number in share.split("/")]] * int(times or 1)
    return fit_likeness(*np.array(rows).T)


@LIKENESS.each()
def test_the_fit_is_the_published_one(row):
    fit = fitted(row["data"])
    assert fit.share == LIKENESS.near(row["share"])
    assert fit.rho == LIKENESS.near(row["rho"])
    assert fit.log_likelihood == LIKENESS.near(row["log_likelihood"])


@FAMILIES.each()
def test_boys_in_families_of_twelve(row):
    fit = fitted(row["data"])
    alike = (1.0 - fit.rho) / fit.rho
    assert fit.share * alike == FAMILIES.near(row["boys"])
    assert (1.0 - fit.share) * alike == FAMILIES.near(row["girls"])


@FAMILIES_LIKELIHOOD.each()
def test_how_likely_such_families_are(row):
    fit = fitted(FAMILIES.rows[0]["data"])
    assert fit.share == FAMILIES_LIKELIHOOD.near(row["share"])
    assert fit.log_likelihood == FAMILIES_LIKELIHOOD.near(row["log_likelihood"])


def test_squares_of_the_invented_field_are_as_alike_as_another_program_finds_them():
    fit = fit_likeness(SQUARES - LOST, SQUARES)
    value = {row["quantity"]: row["value"] for row in INVENTED.rows}
    assert fit.share == INVENTED.near(value["share"])
    assert fit.rho == INVENTED.near(value["rho"])
    assert fit.log_likelihood == INVENTED.near(value["share_ll"])
