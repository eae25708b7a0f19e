"""Fields with their seasons: what a card and a call need of them, in three queries."""

from __future__ import annotations

from django.db.models import Prefetch, QuerySet

from quarterwalk.office.models import FieldRow, SeasonRow, Treatment


def with_season(fields: QuerySet[FieldRow]) -> list[FieldRow]:
    """Fetch fields with all that a call and a card need.

    Parameters
    ----------
    fields : QuerySet of FieldRow
        Which.

    Returns
    -------
    list of FieldRow
    """
    return list(
        fields.select_related("grower", "district").prefetch_related(
            Prefetch("seasons", SeasonRow.objects.order_by("year")),
            Prefetch("treatments", Treatment.objects.order_by("on")),
        )
    )
