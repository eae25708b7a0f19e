"""The shelf of packaged guidelines: one folder a region, in it one folder an edition."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from quarterwalk.errors import UnknownGuideline
from quarterwalk.guideline.content import guideline_from, parsed
from quarterwalk.guideline.rule import Guideline

PACK_FILE = "guideline.toml"


@cache
def guideline_names() -> tuple[str, ...]:
    """List the regions whose guideline is packaged.

    Returns
    -------
    tuple of str
        Names in alphabetical order; none of them is a default.
    """
    return tuple(sorted(pack.name for pack in _packs().iterdir() if pack.is_dir()))


@cache
def load_guideline(name: str) -> Guideline:
    """Take a region's guideline from the shelf, in its newest edition.

    Parameters
    ----------
    name : str
        One of `guideline_names()`. [text]

    Returns
    -------
    Guideline
        The rule, its numbers exact, each with its source.

    Raises
    ------
    UnknownGuideline
        Where there is no guideline of that name; the message names the closest.
    """
    if name not in guideline_names():
        raise UnknownGuideline(name, guideline_names())
    editions = [folder for folder in (_packs() / name).iterdir() if folder.is_dir()]
    newest = max(editions, key=lambda folder: edition_order(folder.name))
    text = (newest / PACK_FILE).read_text(encoding="utf-8")
    return guideline_from(parsed(text), own=False)


def edition_order(edition: str) -> tuple[int, ...]:
    """Put editions in order of age: 2026.2 before 2026.10.

    Parameters
    ----------
    edition : str
        Year and count within the year, joined by a point. [text]

    Returns
    -------
    tuple of int
        Year, then count.
    """
    return tuple(int(part) for part in edition.split("."))


def _packs() -> Traversable:
    return files("quarterwalk.guideline") / "packs"
