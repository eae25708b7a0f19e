"""Fields laid out for a day: the same boundary and day give the same stops, so each is kept."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from quarterwalk.field import Field, Layout, lay_out
from quarterwalk.office.models import FieldRow
from quarterwalk.office.translate import to_field


def laid_out(row: FieldRow, on: date) -> Layout:
    """Lay a field out for a day.

    Parameters
    ----------
    row : FieldRow
        With its grower.
    on : date
        The day.

    Returns
    -------
    Layout
    """
    return _laid_out(to_field(row), on)


@lru_cache(maxsize=256)
def _laid_out(field: Field, on: date) -> Layout:
    return lay_out(field, on)
