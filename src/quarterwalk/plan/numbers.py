"""The numbers that stop plans are made for, each with its source."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def load_numbers() -> dict[str, Any]:
    """Take the numbers from the package's own data.

    Returns
    -------
    dict
        As `plan.toml` has them; not to be changed.
    """
    text = (files("quarterwalk.plan") / "plan.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def number(group: str, name: str) -> float:
    """Give one number.

    Parameters
    ----------
    group, name : str
        Where it stands.

    Returns
    -------
    float
    """
    return float(load_numbers()[group][name]["value"])
