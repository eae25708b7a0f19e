"""Whoever calls a public function can read what goes in, with its unit, and what comes out."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from typing import Any

import pytest
from numpydoc.docscrape import FunctionDoc
from numpydoc.validate import validate

import quarterwalk

NUMERIC = ("quarterwalk.reading", "quarterwalk.call")
CHECKS = {
    "GL03",  # two blank lines inside
    "GL06",  # a section nobody knows
    "GL07",  # sections out of order
    "GL08",  # no docstring
    "SS03",  # first sentence without a full stop
    "SS06",  # first sentence over more than one line
    "PR01",  # a parameter not documented
    "PR02",  # a documented parameter that is not there
    "PR03",  # parameters out of order
    "PR07",  # a parameter without a word on it
    "RT03",  # what is returned, without a word on it
}
UNIT = re.compile(r"\[[^\]]+\]|shape \(")


def public_functions() -> dict[str, Callable[..., Any]]:
    """Give the functions that some package of quarterwalk exports, by full name."""
    found: dict[str, Callable[..., Any]] = {}
    for part in pkgutil.iter_modules(quarterwalk.__path__, "quarterwalk."):
        module = importlib.import_module(part.name)
        for name in getattr(module, "__all__", ()):
            what = getattr(module, name)
            if inspect.isfunction(what):
                found[f"{what.__module__}.{what.__qualname__}"] = what
    return found


PUBLIC = public_functions()
NUMBERS = re.compile(r"\b(float|int|array|NDArray|FloatArray|IntArray)\b")


@pytest.mark.parametrize("name", PUBLIC)
def test_a_public_function_says_what_it_takes_and_gives(name: str) -> None:
    found = [(code, why) for code, why in validate(name)["errors"] if code in CHECKS]
    if not inspect.signature(PUBLIC[name]).parameters:
        found = [(code, why) for code, why in found if not code.startswith("PR")]
    assert not found


def unitless(function: Callable[..., Any]) -> list[str]:
    """Name the parameters that are numbers and whose unit or shape is not said in [...]."""
    hints = inspect.get_annotations(function)
    return [
        told.name
        for told in FunctionDoc(function)["Parameters"]
        if NUMBERS.search(f"{told.type} {hints.get(told.name, '')}")
        and not UNIT.search(" ".join([told.type, *told.desc]))
    ]


@pytest.mark.parametrize("name", [name for name in PUBLIC if name.startswith(NUMERIC)])
def test_a_number_that_goes_in_carries_its_unit(name: str) -> None:
    assert not unitless(PUBLIC[name])


def test_a_number_without_a_unit_is_found() -> None:
    def share(hit: int, seen: int) -> float:
        """Give a share.

        Parameters
        ----------
        hit : int
            Squares that had it. [count]
        seen : int
            Squares looked at.
        """
        return hit / seen

    assert unitless(share) == ["seen"]
