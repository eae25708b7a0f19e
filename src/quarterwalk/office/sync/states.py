"""How walks stand at the office, as a phone shows it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from quarterwalk.office.access import may_walk
from quarterwalk.office.models import Device, WalkRow
from quarterwalk.office.services.calls import LEVEL, Judged, calls_for
from quarterwalk.report import make_report

Json = dict[str, Any]


def states_of(device: Device, walk_ids: Iterable[str]) -> Json:
    """Tell how some walks stand, and what the office says of them.

    Parameters
    ----------
    device : Device
        The phone that asks.
    walk_ids : iterable of str
        Which; those of other districts are left out.

    Returns
    -------
    dict
        By walk id.
    """
    if device.person is None or not may_walk(device.person, device.district):
        return {}
    rows = list(WalkRow.objects.filter(walk_id__in=set(walk_ids), district=device.district_id))
    judged = calls_for(row for row in rows if row.state == "closed")
    return {row.walk_id: _state(row, judged.get(row.walk_id)) for row in rows}


def _state(row: WalkRow, judged: Judged | None) -> Json:
    return {
        "state": row.state,
        "waiting": row.waiting,
        "plants": row.plants,
        "call": None if judged is None or judged.call is None else _call(judged),
    }


def _call(judged: Judged) -> Json | None:
    call = judged.call
    if call is None:
        return None
    told = make_report(judged.head, judged.reading, call, layout=None, level=LEVEL)
    return {
        "verdict": call.verdict.value,
        "words": told.verdict_words,
        "headline": told.headline,
        "reasons": list(told.reasons),
        "sure": None if call.sure is None else call.sure.value,
        "provisional": call.provisional or bool(judged.lacking),
        "lacking": list(judged.lacking),
        "next_look": None if call.next_look is None else call.next_look.latest.isoformat(),
        "again": [*told.next_look, *({told.host_weeds} - set(told.care))],
        "care": list(told.care),
        "insects": told.insects,
        "squares": told.squares,
        "guideline": told.footing.rule,
    }
