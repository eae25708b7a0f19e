"""Boundaries out of a Shapefile: shapes, their table and their coordinate system."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

from quarterwalk.files.boundary_limits import MOST_LAYERS
from quarterwalk.files.bounded_file import bytes_of
from quarterwalk.files.crs import crs_described
from quarterwalk.files.drawn import Budget, Drawn, Layer, Said, counter_clockwise
from quarterwalk.files.refusal import refuse
from quarterwalk.files.shapefile_records import AREAS, NULL_SHAPE, shp_records
from quarterwalk.files.shapefile_table import said_in_table
from quarterwalk.files.zip_members import Member
from quarterwalk.words import phrase, phrase_for

SUFFIXES = (".shp", ".dbf", ".prj")
"""Files of a Shapefile that are read; the others only make it quicker."""


@dataclass(frozen=True, slots=True)
class Trio:
    """The files of one layer; None for a file that is not there.

    Parameters
    ----------
    file : str
        What errors call the layer.
    shp : bytes
        Shapes.
    dbf : bytes or None
        Table.
    prj : bytes or None
        Coordinate system.
    """

    file: str
    shp: bytes
    dbf: bytes | None
    prj: bytes | None


def trios_in_zip(file: str, packed: tuple[Member, ...]) -> list[Trio]:
    """Bring together the files of each layer in a zip, in whichever folder of it.

    Parameters
    ----------
    file : str
        What errors call the zip.
    packed : tuple of Member
        Its files of a Shapefile.

    Returns
    -------
    list of Trio
        In the order of the zip.
    """
    by_name = {str(member.path).lower(): member.data for member in packed}
    shapes = [member for member in packed if member.suffix == ".shp"]
    if len(shapes) > MOST_LAYERS:
        refuse(file, f"{len(shapes)}", f"a zip of at most {MOST_LAYERS} layers")
    found = []
    for member in shapes:
        stem = str(member.path.with_suffix("")).lower()
        dbf, prj = by_name.get(f"{stem}.dbf"), by_name.get(f"{stem}.prj")
        name = file if len(shapes) == 1 else f"{file}, {member.path}"
        found.append(Trio(name, member.data, dbf, prj))
    return found


def trio_beside(path: Path, file: str, shp: bytes) -> Trio:
    """Bring together a ``.shp`` file and the files beside it that bear its name.

    Parameters
    ----------
    path : Path
        The ``.shp`` file; letter case of endings does not matter.
    file : str
        What errors call it.
    shp : bytes
        What is in it.

    Returns
    -------
    Trio

    Raises
    ------
    RefusedInput
        If one of them can't be read.
    """
    try:
        beside = sorted(other for other in path.parent.iterdir() if other.stem == path.stem)
    except OSError:  # a folder whose files may be opened, but not listed
        beside = []
    found = {other.suffix.lower(): other for other in beside}
    dbf, prj = (bytes_of(p, str(p)) if (p := found.get(end)) else None for end in SUFFIXES[1:])
    return Trio(file, shp, dbf, prj)


def shapefile_layer(trio: Trio) -> Layer:
    """Read one layer of a Shapefile.

    Parameters
    ----------
    trio : Trio
        Its files.

    Returns
    -------
    Layer

    Raises
    ------
    RefusedInput
        If one of them is damaged, or they do not belong together.
    """
    file = trio.file
    budget = Budget(file)
    records = list(shp_records(trio.shp, budget))
    said = _said(trio, len(records))
    drawn, left_out, deleted = [], 0, 0
    for row, (record, told) in enumerate(zip(records, said, strict=True), start=1):
        if told is None:
            deleted += 1
        elif record.kind in (*AREAS, NULL_SHAPE):
            drawn.append(Drawn(row, tuple(map(counter_clockwise, record.parts)), told))
        else:
            left_out += 1
    crs = None if trio.prj is None else crs_described(file, trio.prj.decode("utf-8", "replace"))
    return Layer(file, tuple(drawn), left_out, crs, _notices(trio, deleted))


def _said(trio: Trio, count: int) -> list[Said | None]:
    if trio.dbf is None:
        return [Said()] * count
    said = said_in_table(trio.file, trio.dbf)
    if len(said) != count:
        _refuse_strangers(trio.file, len(said), count)
    return said


def _refuse_strangers(file: str, rows: int, shapes: int) -> NoReturn:
    value = f"{shapes:,} shapes and {rows:,} rows"
    refuse(file, value, "a .shp and a .dbf file that belong together")


def _notices(trio: Trio, deleted: int) -> tuple[str, ...]:
    notices = []
    if trio.dbf is None:
        notices.append(
            phrase(
                "{file}: there is no .dbf file beside it, so its fields have no names.",
                file=trio.file,
            )
        )
    if deleted:
        notices.append(
            phrase_for(
                deleted,
                "{file}: {count} feature that is marked as deleted was left out.",
                "{file}: {count} features that are marked as deleted were left out.",
                file=trio.file,
            )
        )
    return tuple(notices)
