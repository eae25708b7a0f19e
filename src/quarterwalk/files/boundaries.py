"""Fields in: boundaries out of every common kind of file, mended where that is safe.

A file is taken whole or not at all, and all problems are told together.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import IO

from quarterwalk.field import Field
from quarterwalk.field.overlap import Overlap, overlaps
from quarterwalk.files.boundary_file import layers_of
from quarterwalk.files.boundary_limits import MOST_FIELDS
from quarterwalk.files.crs import on_the_globe
from quarterwalk.files.drawn import Layer
from quarterwalk.files.drawn_fields import Gathered
from quarterwalk.files.refusal import refuse, refuse_if_any
from quarterwalk.words import ENGLISH, phrase, spoken_in

MOST_OVERLAPS = 50
"""Overlaps that are told one by one. [count]"""


@dataclass(frozen=True, slots=True)
class FieldFile:
    """The fields of a file, and what is worth saying about it.

    Parameters
    ----------
    file : str
        The file's name.
    fields : tuple of Field
        In the order of the file.
    notices : tuple of str
        What was mended, left out or looks odd, each a sentence that names file and field.
    """

    file: str
    fields: tuple[Field, ...]
    notices: tuple[str, ...]


def read_fields(
    path: str | Path, *, stdin: IO[bytes] | None = None, language: str = ENGLISH
) -> FieldFile:
    """Read the boundaries of fields, with their gates and rows where the file has them.

    Parameters
    ----------
    path : str or Path
        GeoJSON, a Shapefile or a zip of one, KML, KMZ or a GeoPackage; ``-`` reads GeoJSON
        from `stdin`. [file name]
    stdin : binary file or None
        Where ``-`` reads from.
    language : str
        Language of the notices. ["en" or "es"]

    Returns
    -------
    FieldFile
        The fields on WGS 84, and what is worth saying about the file.

    Raises
    ------
    RefusedInput
        If anything in the file is wrong that can't be mended safely; it names up to 50
        problems by feature, counted from 1, and property.
    """
    with spoken_in(language):
        layers = layers_of(path, stdin)
        file = layers[0].file if len(layers) == 1 else str(path)
        if not any(layer.drawn for layer in layers):
            refuse(file, _found(layers), "a file with at least one polygon")
        if sum(len(layer.drawn) for layer in layers) > MOST_FIELDS:
            refuse(file, "more", f"a file of at most {MOST_FIELDS:,} features in all its layers")
        gathered = Gathered()
        for layer in layers:
            gathered.add(on_the_globe(layer))
        refuse_if_any(gathered.problems)
        told = _told(file, overlaps(gathered.fields))
        return FieldFile(file, tuple(gathered.fields), (*gathered.notices, *told))


def _found(layers: Iterable[Layer]) -> str:
    others = sum(layer.left_out for layer in layers)
    return "points and lines only" if others else "none"


def _told(file: str, found: Iterable[Overlap]) -> list[str]:
    """Tell which fields lie on one another; of very many, the first."""
    pairs = list(islice(found, MOST_OVERLAPS + 1))
    told = [_pair(file, pair) for pair in pairs[:MOST_OVERLAPS]]
    if len(pairs) > MOST_OVERLAPS:
        told.append(phrase("{file}: and more fields lie on one another.", file=file))
    return told


def _pair(file: str, pair: Overlap) -> str:
    names = {"file": file, "first": pair.first.name, "second": pair.second.name}
    if pair.same:
        return phrase(
            "{file}: fields {first} and {second} have the same boundary; is one of them there "
            "twice?",
            **names,
        )
    return phrase(
        "{file}: fields {first} and {second} overlap by {acres} acres.",
        **names,
        acres=f"{pair.acres:.2f}",
    )
