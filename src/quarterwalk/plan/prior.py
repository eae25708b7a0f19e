"""The spread of fields over which the minutes of a plan are averaged."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.special import expit, logit, ndtr

from quarterwalk.plan.laws import FloatArray
from quarterwalk.plan.numbers import number
from quarterwalk.plan.question import Lost, Question

FINE = (31, 15)
"""Nodes of the two normal distributions, for figures that are told. [count]"""

COARSE = (15, 7)
"""Nodes for a search: mean plants change by less than a tenth. [count]"""


@dataclass(frozen=True)
class Fields:
    """Fields with their weights.

    Parameters
    ----------
    density : float array, shape (fields,)
        Insects per plant. [count per plant]
    share : float array, shape (fields,)
        Lost share of the squares. [fraction]
    weight : float array, shape (fields,)
        They sum to 1. [fraction]
    """

    density: FloatArray
    share: FloatArray
    weight: FloatArray


@dataclass(frozen=True, slots=True)
class Spread:
    """How densities differ between fields.

    Parameters
    ----------
    median : float
        Half of the fields have fewer insects. [count per plant]
    log_spread : float
        Standard deviation of the logarithm of the density. [log]
    """

    median: float = number("fields", "median")
    log_spread: float = number("fields", "log_spread")


USUAL_SPREAD = Spread()
"""What is assumed where nobody's own walks say otherwise."""


@lru_cache(maxsize=64)
def fields_for(
    question: Question, nodes: tuple[int, int] = FINE, spread: Spread = USUAL_SPREAD
) -> Fields:
    """Give the fields that are taken for the usual spread.

    Parameters
    ----------
    question : Question
        Whether squares are asked, and which.
    nodes : tuple of int
        Of the densities, and of the shares at each. [count]
    spread : Spread
        How the densities differ.

    Returns
    -------
    Fields
        Their weights are those of two normal distributions.
    """
    densities, shares = nodes
    d, wd = _normal(densities)
    density = spread.median * np.exp(spread.log_spread * d)
    if question.bar is None:
        return Fields(density, np.zeros_like(density), wd)
    noise, ws = _normal(shares)
    kept = number("fields", "kept") * np.exp(-number("fields", "per_insect") * density)
    lost = 1.0 - expit(logit(kept)[:, None] + number("fields", "set_noise") * noise[None, :])
    if question.bar.lost is Lost.BLASTED:
        lost = number("fields", "blasted") * lost
    weight = wd[:, None] * ws[None, :]
    return Fields(np.repeat(density, shares), lost.ravel(), weight.ravel())


def truly_to_treat(question: Question) -> float:
    """Give the share of those fields that are truly to be treated.

    Parameters
    ----------
    question : Question
        Line and bar.

    Returns
    -------
    float
        [fraction]
    """
    line = float(question.line) / 100.0
    spread = number("fields", "log_spread")
    edge = np.log(line / number("fields", "median")) / spread
    if question.bar is None:
        return float(ndtr(-edge))
    z = np.linspace(edge, edge + 9.0, 4001)
    density = number("fields", "median") * np.exp(spread * z)
    kept = number("fields", "kept") * np.exp(-number("fields", "per_insect") * density)
    most = 1.0 - float(question.bar.share)
    if question.bar.lost is Lost.BLASTED:
        most = 1.0 - float(question.bar.share) / number("fields", "blasted")
    if most <= 0.0:
        return 0.0
    under = ndtr((logit(most) - logit(kept)) / number("fields", "set_noise"))
    return float(np.trapezoid(np.exp(-0.5 * z**2) / np.sqrt(2.0 * np.pi) * under, z))


def _normal(nodes: int) -> tuple[FloatArray, FloatArray]:
    """Give nodes and weights of a standard normal distribution."""
    at, weight = np.polynomial.hermite_e.hermegauss(nodes)
    return at, weight / weight.sum()
