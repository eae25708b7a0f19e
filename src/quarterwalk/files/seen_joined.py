"""Rows of one field and day, such as one a quadrant, joined into what was seen that day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from quarterwalk.crop.seen import Seen


@dataclass(frozen=True, slots=True)
class SeenRow:
    """What one row tells; None where a cell is blank. [counts, or means of plants]

    Parameters
    ----------
    true_leaves, nodes, squaring_branches, nawf : float or None
        Of a plant, or the mean of the row's plants.
    plants, pinhead : int or None
        Plants looked at, and those of them with a square.
    bloom : bool or None
        Whether white flowers stand.
    """

    true_leaves: float | None = None
    nodes: float | None = None
    plants: int | None = None
    pinhead: int | None = None
    squaring_branches: float | None = None
    bloom: bool | None = None
    nawf: float | None = None


def joined(on: date, rows: Sequence[SeenRow]) -> Seen:
    """Join the rows of one field and day.

    Parameters
    ----------
    on : date
        The day.
    rows : sequence of SeenRow
        At least one.

    Returns
    -------
    Seen
        Plants and pinheads are added up. Other counts are means over the rows that have
        them: by their plants where each of these rows gives them, else each row alike.
        White flowers stand in the field where any row has one.
    """
    looked = [row for row in rows if row.pinhead is not None]
    flowers = any(row.bloom or row.nawf is not None for row in rows)
    told = any(row.bloom is not None for row in rows)
    return Seen(
        on=on,
        true_leaves=_mean([(row.true_leaves, row.plants) for row in rows]),
        nodes=_mean([(row.nodes, row.plants) for row in rows]),
        plants=sum(row.plants or 0 for row in looked) if looked else None,
        pinhead=sum(row.pinhead or 0 for row in looked) if looked else None,
        squaring_branches=_mean([(row.squaring_branches, row.plants) for row in rows]),
        bloom=flowers if told else None,
        nawf=_mean([(row.nawf, row.plants) for row in rows]),
    )


def _mean(counts: Sequence[tuple[float | None, int | None]]) -> float | None:
    known = [(count, plants) for count, plants in counts if count is not None]
    if not known:
        return None
    weighted = [(count, plants) for count, plants in known if plants is not None]
    pairs = weighted if len(weighted) == len(known) else [(count, 1) for count, _ in known]
    return sum(count * plants for count, plants in pairs) / sum(plants for _, plants in pairs)
