"""What a ``.dbf`` table says of the shapes beside it."""

from __future__ import annotations

import io
import struct
import warnings
from typing import Any

from shapefile import Reader, ShapefileException

from quarterwalk.files.boundary_limits import MOST_FIELDS
from quarterwalk.files.drawn import Said, said_from
from quarterwalk.files.refusal import refuse

_WHOLE = "a .dbf file that is whole"
_HEADER = 32
_ODD = (ShapefileException, struct.error, ValueError, LookupError, OverflowError, TypeError)


def said_in_table(file: str, data: bytes) -> list[Said | None]:
    """Read the properties of each shape.

    Parameters
    ----------
    file : str
        What errors call the table.
    data : bytes
        The ``.dbf`` file.

    Returns
    -------
    list of Said or None
        None for a row that is marked as deleted.

    Raises
    ------
    RefusedInput
        If its header is not true, or it can't be read.
    """
    _refuse_lies(file, data)
    try:
        with warnings.catch_warnings():
            # what the library doubts about a header is ours to tell, or to leave alone
            warnings.simplefilter("ignore")
            return _rows(Reader(dbf=io.BytesIO(data), encoding="latin-1"))
    except _ODD as error:
        refuse(file, str(error), _WHOLE)


def _rows(table: Any) -> list[Said | None]:
    names = [_letters(field[0]) for field in table.fields[1:]]
    records = (table.record(place) for place in range(len(table)))
    return [
        r if r is None else said_from(zip(names, map(_letters, r), strict=True)) for r in records
    ]


def _letters(value: Any) -> Any:
    """Give a text in the letters that were meant: UTF-8, or those of old Windows programs."""
    if not isinstance(value, str):
        return value
    raw = value.encode("latin-1")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return raw.decode("cp1252", "replace")


def _refuse_lies(file: str, data: bytes) -> None:
    if len(data) <= _HEADER:
        refuse(file, "a shorter one" if data else "an empty one", _WHOLE)
    rows, header, width = struct.unpack_from("<LHH", data, 4)
    if rows > MOST_FIELDS:
        refuse(file, f"{rows:,} rows", f"a .dbf table of at most {MOST_FIELDS:,} rows")
    if header <= _HEADER or not width or header + rows * width > len(data):
        refuse(file, f"{len(data):,} bytes where it says {header + rows * width:,}", _WHOLE)
