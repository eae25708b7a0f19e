"""Who may see and change weather, and what was seen of a crop."""

from __future__ import annotations

from django.db.models import QuerySet
from django.http import Http404

from quarterwalk.office.access import WALKING, User, memberships
from quarterwalk.office.models import Membership, Role, SeenRow, StationRow


def stations_of(part: Membership) -> QuerySet[StationRow]:
    """Give the weather stations that somebody may change: a lead's; nobody else's.

    Parameters
    ----------
    part : Membership
        Their part.

    Returns
    -------
    QuerySet of StationRow
        By id.
    """
    stations = StationRow.objects.filter(district=part.district).order_by("station")
    return stations if part.role == Role.LEAD else stations.none()


def station_led(user: User, pk: int) -> StationRow:
    """Give one weather station of a district that somebody leads.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    pk : int
        Its number.

    Returns
    -------
    StationRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    led = memberships(user).filter(role=Role.LEAD).values("district")
    found = StationRow.objects.filter(pk=pk, district__in=led).select_related("district").first()
    if found is None:
        raise Http404("There is no such station for you.")
    return found


def seen_to_strike(user: User, pk: int) -> SeenRow:
    """Give what somebody noted of a crop and may strike: a lead all, a scout their own.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    pk : int
        Its number.

    Returns
    -------
    SeenRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    parts = memberships(user).filter(role__in=WALKING)
    rows = SeenRow.objects.select_related("field__district", "by")
    found = rows.filter(pk=pk, field__district__in=parts.values("district")).first()
    part = parts.filter(district=found.field.district).first() if found else None
    if found is None or part is None or (part.role != Role.LEAD and found.by_id != part.person_id):
        raise Http404("There is no such note for you.")
    return found
