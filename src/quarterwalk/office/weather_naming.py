"""Who names the station of a weather file: the archive, a table, or nothing but its file's name."""

from __future__ import annotations

import io
from enum import Enum
from pathlib import Path

from quarterwalk.files.ghcn_csv import is_by_station, is_yearly
from quarterwalk.files.ghcn_dly import is_dly
from quarterwalk.files.sheet import Sheet, open_sheet
from quarterwalk.files.weather_bytes import bytes_of_file, first_line

_ID = "station"


class Naming(Enum):
    """By what a file says of which station its days are."""

    ARCHIVE = "archive"
    """A file of the daily archive, which has an id in each row."""

    TABLE = "table"
    """A table with ids in its column ``station``."""

    FILE_NAME = "file-name"
    """A table of one station without an id: it is called as its file."""


def naming_of(path: Path) -> Naming:
    """Tell who names the stations of a file that could be read.

    Parameters
    ----------
    path : Path
        The file. An id may well be the file's name too, so the name tells nothing.

    Returns
    -------
    Naming
    """
    data = bytes_of_file(path, path.name)
    first = first_line(data)
    if is_dly(first) or is_yearly(first):
        return Naming.ARCHIVE
    sheet = open_sheet("-", stdin=io.BytesIO(data))
    archive = is_by_station(sheet)
    if not _has_ids(sheet):
        return Naming.FILE_NAME
    return Naming.ARCHIVE if archive else Naming.TABLE


def _has_ids(sheet: Sheet) -> bool:
    """Tell whether rows give an id; where one does, all that were taken do."""
    names = [name.lower() for name in sheet.header]
    if _ID not in names:
        return False
    at = names.index(_ID)
    return any(row[at].strip() for block in sheet.blocks for row in block.rows)
