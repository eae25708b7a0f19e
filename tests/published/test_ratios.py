"""Ratios and their variance, in strata and clusters, against published survey samples."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from quarterwalk.reading.square_set import residual_variance, share_odds
from quarterwalk.reading.sums import ClusterSums, cluster_sums
from tests.published.tables import read
from tests.reading.toy_field import LOST, NO_STOPS, SQUARES, sums

RATIOS = read("ratios")
INVENTED = read("invented_ratio")
DESIGN_EFFECT = read("design_effect")


@cache
def column(sample, name):
    """Take one column of a sample; an empty name is one for each unit."""
    if sample in ("bigcity", "city"):
        rows = read("cities").rows[: 10 if sample == "city" else None]
    else:
        rows = tuple(row for row in read("schools").rows if row["sample"] == sample)
    return np.array([row.get(name, "1") for row in rows])


def summed(row) -> ClusterSums:
    """Sum a sample: strata are quadrants, districts are stops."""
    sample = row["sample"]
    top, bottom = (column(sample, row[key]).astype(int) for key in ("top", "bottom"))
    strata = np.unique(column(sample, "stratum"), return_inverse=True)[1]
    cluster = None
    if sample == "apiclus1":
        cluster = column(sample, "district").astype(int)
    return cluster_sums(top, bottom, strata, cluster, 1)


def drawn_from(row) -> np.ndarray:
    """Give how many units each stratum has; a boundless sea of them where none is told."""
    of = np.full((1, 4), np.inf)
    if row["finite"] == "yes":
        units = column(row["sample"], "of").astype(int)
        names, first = np.unique(column(row["sample"], "stratum"), return_index=True)
        of[0, : names.size] = units[first]
    elif row["finite"] != "no":
        of[0, 0] = int(row["finite"])
    return of


@RATIOS.each()
def test_a_ratio_and_its_standard_error(row):
    field = summed(row)
    of = drawn_from(row)
    clusters = np.maximum(field.clusters, 1)
    weight = np.where(np.isfinite(of), of, clusters) / clusters
    squares = (weight * field.b).sum(axis=1)
    ratio = (weight * field.a).sum(axis=1) / squares
    parts = residual_variance(field, weight, ratio) * (1.0 - clusters / of)
    scale = squares[0] if row["bottom"] == "total" else 1.0
    assert ratio[0] * scale == RATIOS.near(row["estimate"])
    assert np.sqrt(parts.sum()) / squares[0] * scale == RATIOS.near(row["se"])


@DESIGN_EFFECT.each()
def test_schools_of_one_district_are_alike(row):
    (mean,) = (other for other in RATIOS.rows if other["name"] == "cluster mean")
    together, weight = summed(mean), np.ones((1, 4))
    alone = cluster_sums(
        column(row["sample"], "api00").astype(int), np.ones(183, int), np.zeros(183, int), None, 1
    )
    ratio = alone.a.sum(axis=1) / alone.b.sum(axis=1)
    of_districts = residual_variance(together, weight, ratio).sum()
    of_districts *= 1.0 - together.clusters[0, 0] / drawn_from(mean)[0, 0]
    of_schools = residual_variance(alone, weight, ratio).sum() * (1.0 - 183 / int(row["of"]))
    assert of_districts / of_schools == DESIGN_EFFECT.near(row["design_effect"])


def error_behind(field: ClusterSums) -> tuple[float, float]:
    """Undo what the odds add for their own doubt: 2/freedom and 1/what is seen seldom."""
    kept, lost = (float(part[0]) - 0.5 for part in share_odds(field, field, NO_STOPS))
    share = kept / (kept + lost)
    freedom = np.maximum(field.clusters - 1, 0).sum()
    seldom = min(share, 1.0 - share) * field.b.sum()
    variance = share * (1.0 - share) / (kept + lost)
    return share, float(np.sqrt(variance / (1.0 + 2.0 / freedom + 1.0 / seldom)))


@INVENTED.each()
def test_the_odds_of_the_invented_field_hold_the_error_of_a_survey_program(row):
    share, error = error_behind(sums(SQUARES - LOST, SQUARES))
    assert share == INVENTED.near(row["ratio"])
    assert error == INVENTED.near(row["se"])


@pytest.mark.parametrize("name", ["49 cities", "10 cities"])
def test_the_odds_of_a_ratio_turned_over_hold_its_error(name):
    (row,) = (row for row in RATIOS.rows if row["name"] == name)
    share, error = error_behind(summed({**row, "top": row["bottom"], "bottom": row["top"]}))
    # by algebra, the error of 1/R is that of R over R squared
    assert 1.0 / share == RATIOS.near(row["estimate"])
    assert error / share**2 == RATIOS.near(row["se"])


@pytest.mark.parametrize("name", ["simple ratio", "cluster ratio"])
def test_the_odds_of_a_survey_sample_hold_its_error(name):
    (row,) = (row for row in RATIOS.rows if row["name"] == name)
    field = summed(row)
    share, error = error_behind(field)
    drawn = 1.0 - field.clusters[0, 0] / drawn_from(row)[0, 0]
    assert share == RATIOS.near(row["estimate"])
    assert error * np.sqrt(drawn) == RATIOS.near(row["se"])
