"""Which of some walks is the newer one: the one order that every page goes by."""

from __future__ import annotations

from django.db.models import OuterRef, QuerySet, Subquery

from quarterwalk.office.models import EntryState, JournalEntry, WalkRow


def newest_first(walks: QuerySet[WalkRow]) -> QuerySet[WalkRow]:
    """Put walks in order, the newest first.

    By day, then by when they began. Walks from a table or a sheet have no hour and all begin
    at noon: of these the one that came in last is the newest, as a corrected table is.

    Parameters
    ----------
    walks : QuerySet of WalkRow
        Which.

    Returns
    -------
    QuerySet of WalkRow
    """
    entries = JournalEntry.objects.filter(walk_id=OuterRef("pk"), state=EntryState.HELD)
    came = Subquery(entries.order_by("-pk").values("pk")[:1])
    return walks.annotate(came=came).order_by("-on", "-opened_at", "-came", "walk_id")
