"""What was seen of fields' crops: noted by somebody, or counted on walks."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from datetime import date
from itertools import groupby

from django.db.models import Count, F, Q

from quarterwalk.crop import Seen
from quarterwalk.office.models import CheckRow, QuadrantNoteRow, SeenRow
from quarterwalk.office.translate_season import to_seen

Signs = dict[int, tuple[Seen, ...]]
"""What was seen, by the field's key; in the order of days."""

_SAYS_NOTHING = ("unopened", "void")
"""States of walks that count nowhere."""


def signs_of(fields: Collection[int], years: Collection[int]) -> Signs:
    """Gather what was seen of some fields, in three queries.

    Parameters
    ----------
    fields : collection of int
        The fields' keys.
    years : collection of int
        The seasons that are asked for.

    Returns
    -------
    dict of int to tuple of Seen
        A field of which nothing was seen is left out.
    """
    found: dict[int, list[Seen]] = defaultdict(list)
    for field, seen in (*_noted(fields, years), *_walked(fields, years)):
        found[field].append(seen)
    return {
        field: tuple(sorted(seen, key=lambda one: (one.on, one.walked)))
        for field, seen in found.items()
    }


def flowers_of(fields: Collection[int], years: Collection[int]) -> Signs:
    """Gather what was noted of fields' flowers, in one query: walks tell nothing of them.

    Parameters
    ----------
    fields : collection of int
        The fields' keys.
    years : collection of int
        The seasons that are asked for.

    Returns
    -------
    dict of int to tuple of Seen
        In the order of days; a field whose flowers nobody looked for is left out.
    """
    found: dict[int, tuple[Seen, ...]] = {}
    for field, seen in _noted(fields, years, Q(bloom__isnull=False) | Q(nawf__isnull=False)):
        found[field] = (*found.get(field, ()), seen)
    return found


def _noted(
    fields: Collection[int], years: Collection[int], which: Q | None = None
) -> Iterable[tuple[int, Seen]]:
    """Give what people noted, a field and a day together; by all notes, or by some."""
    rows = SeenRow.objects.filter(which or Q(), field__in=fields, on__year__in=years)
    rows = rows.filter(struck_at=None).order_by("field_id", "on", "pk")
    for (field, on), told in groupby(rows, key=lambda row: (row.field_id, row.on)):
        yield field, to_seen(on, list(told))


def _walked(fields: Collection[int], years: Collection[int]) -> Iterable[tuple[int, Seen]]:
    """Give what the plants of walks tell, and their fruiting branches."""
    plants = _squares(fields, years)
    branches = _branches(fields, years)
    for walk in sorted({*plants, *branches}):
        looked, squaring = plants.get(walk, (None, None))
        field, on, _ = walk
        yield (
            field,
            Seen(
                on,
                plants=looked,
                pinhead=squaring,
                squaring_branches=branches.get(walk),
                walked=True,
            ),
        )


_Walk = tuple[int, date, str]
"""A field's key, a day, and the walk's id."""


def _squares(
    fields: Collection[int], years: Collection[int]
) -> dict[_Walk, tuple[int | None, int | None]]:
    """Count the plants of each walk whose squares were looked at, and those with a square."""
    looked = CheckRow.objects.filter(
        walk__field__in=fields,
        walk__on__year__in=years,
        skipped=False,
        healthy__isnull=False,
        missing__isnull=False,
        blasted__isnull=False,
        flared__isnull=False,
    ).exclude(walk__state__in=_SAYS_NOTHING)
    told = (
        looked.annotate(squares=F("healthy") + F("missing") + F("blasted") + F("flared"))
        .order_by()
        .values("walk__field", "walk__on", "walk")
        .annotate(looked=Count("pk"), squaring=Count("pk", filter=Q(squares__gt=0)))
        .values_list("walk__field", "walk__on", "walk", "looked", "squaring")
    )
    return {
        (field, on, walk): (plants, squaring)
        for field, on, walk, plants, squaring in told
        if on is not None
    }


def _branches(fields: Collection[int], years: Collection[int]) -> dict[_Walk, float]:
    """Give the mean of the fruiting branches that were counted on each walk."""
    notes = QuadrantNoteRow.objects.filter(walk__field__in=fields, walk__on__year__in=years)
    notes = notes.exclude(walk__state__in=_SAYS_NOTHING).exclude(branches="")
    counts: dict[_Walk, list[int]] = defaultdict(list)
    told = notes.values_list("walk__field", "walk__on", "walk", "branches")
    for field, on, walk, text in told:
        if on is not None:
            counts[field, on, walk] += map(int, text.split())
    return {walk: sum(each) / len(each) for walk, each in counts.items()}
