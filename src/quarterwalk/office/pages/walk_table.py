"""A walk as a table that reads back equal."""

from __future__ import annotations

import re
from pathlib import Path
from tempfile import TemporaryDirectory

from quarterwalk.files import write_walks
from quarterwalk.office.models import WalkRow
from quarterwalk.office.services.calls import Judged
from quarterwalk.walk import WalkTable


def table_bytes(judged: Judged) -> bytes:
    """Write a walk as CSV, one row a plant.

    Parameters
    ----------
    judged : Judged
        The walk.

    Returns
    -------
    bytes
        UTF-8.
    """
    with TemporaryDirectory() as folder:
        path = Path(folder) / "walk.csv"
        write_walks(WalkTable.from_walks([judged.walk]), path)
        return path.read_bytes()


def table_name(row: WalkRow) -> str:
    """Name the file of a walk's table.

    Parameters
    ----------
    row : WalkRow
        The walk.

    Returns
    -------
    str
        Plain letters, digits and hyphens.
    """
    name = row.field.name if row.field is not None else "walk"
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower() or "walk"
    return f"{plain}-{row.on}.csv"
