"""Walks that stand beside others of the same field and day."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from quarterwalk.office.models import WalkRow
from quarterwalk.office.queries.standing import TELLS
from quarterwalk.office.queries.walk_order import newest_first


@dataclass(frozen=True, slots=True)
class Beside:
    """A walk that was here when another of the same field and day came in.

    Parameters
    ----------
    field : str
        The field's name.
    on : date
        The day.
    walk_id : str
        The one that was here.
    new_holds : bool
        Whether the field now goes by one that came in.
    """

    field: str
    on: date
    walk_id: str
    new_holds: bool


def beside(walk_ids: Collection[str]) -> tuple[Beside, ...]:
    """Find the walks that were here already of the fields and days of some new ones.

    Parameters
    ----------
    walk_ids : collection of str
        Walks that came in just now.

    Returns
    -------
    tuple of Beside
        One for each field and day that had a walk with plants, by day and field.
    """
    new = WalkRow.objects.filter(walk_id__in=walk_ids, plants__gt=0)
    days = {each for each in new.values_list("field", "on") if None not in each}
    walks = WalkRow.objects.filter(
        field__in={field for field, _ in days},
        on__in={on for _, on in days},
        state__in=TELLS,
        plants__gt=0,
    )
    found: dict[tuple[date, str], list[str]] = {}
    for walk in newest_first(walks).select_related("field"):
        if walk.on is not None and walk.field is not None and (walk.field_id, walk.on) in days:
            found.setdefault((walk.on, walk.field.name), []).append(walk.walk_id)
    new_ids = set(walk_ids)
    told = []
    for (on, name), ids in sorted(found.items()):
        before = [each for each in ids if each not in new_ids]
        if before:
            told.append(Beside(name, on, before[0], ids[0] in new_ids))
    return tuple(told)
