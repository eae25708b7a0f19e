"""Who may see what: a row that a person may not see does not exist."""

from __future__ import annotations

from collections.abc import Iterable

from django.contrib.auth.models import AnonymousUser
from django.db.models import QuerySet
from django.http import Http404

from quarterwalk.office.models import (
    Device,
    DeviceKind,
    District,
    EntryState,
    FieldRow,
    JournalEntry,
    Membership,
    Person,
    Role,
    WalkRow,
)
from quarterwalk.office.queries.walk_order import newest_first

User = Person | AnonymousUser

WALKING = (Role.LEAD, Role.SCOUT)
"""Those who may walk fields."""


def memberships(user: User) -> QuerySet[Membership]:
    """Give the parts that a person has, by district name.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.

    Returns
    -------
    QuerySet of Membership
    """
    parts = Membership.objects.select_related("district", "grower", "person")
    if not isinstance(user, Person) or not user.is_active:
        return parts.none()
    return parts.filter(person=user).order_by("district__name")


def part_of(user: User, district_id: str | None = None) -> Membership:
    """Give the part that a person has in a district.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    district_id : str or None
        Public id; None takes their first district.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If they have none there.
    """
    parts = memberships(user)
    if district_id is not None:
        parts = parts.filter(district__public_id=district_id)
    found = parts.first()
    if found is None:
        raise Http404("You have no part in this district.")
    return found


def lead_of(user: User, district: District) -> Membership:
    """Give a lead's part in a district.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    district : District
        Which.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If they do not lead it.
    """
    return _part(user, district, (Role.LEAD,))


def walker_of(user: User, district: District) -> Membership:
    """Give the part of somebody who may walk in a district.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    district : District
        Which.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If they may not.
    """
    return _part(user, district, WALKING)


def _part(user: User, district: District, roles: Iterable[Role]) -> Membership:
    found = memberships(user).filter(district=district, role__in=list(roles)).first()
    if found is None:
        raise Http404("There is no such page for you.")
    return found


def may_walk(person: Person, district: District) -> bool:
    """Tell whether somebody may walk the fields of a district.

    Parameters
    ----------
    person : Person
        Who.
    district : District
        Where.

    Returns
    -------
    bool
    """
    return memberships(person).filter(district=district, role__in=WALKING).exists()


def walkers(district: District) -> QuerySet[Person]:
    """Give those who may walk the fields of a district, by name.

    Parameters
    ----------
    district : District
        Which.

    Returns
    -------
    QuerySet of Person
    """
    return Person.objects.filter(
        is_active=True, memberships__district=district, memberships__role__in=WALKING
    ).order_by("name", "public_id")


def fields_seen(part: Membership) -> QuerySet[FieldRow]:
    """Give the fields that somebody may see: a grower's own, for others all of the district.

    Parameters
    ----------
    part : Membership
        Their part.

    Returns
    -------
    QuerySet of FieldRow
        By name.
    """
    fields = FieldRow.objects.filter(district=part.district).select_related("grower", "district")
    if part.role == Role.GROWER:
        fields = fields.filter(grower=part.grower)
    return fields.order_by("name")


def field_seen(user: User, field_id: str) -> FieldRow:
    """Give one field that somebody may see.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    field_id : str
        Public id.

    Returns
    -------
    FieldRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    return _field(user, field_id, tuple(Role))


def field_walked(user: User, field_id: str) -> FieldRow:
    """Give one field that somebody may walk.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    field_id : str
        Public id.

    Returns
    -------
    FieldRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    return _field(user, field_id, WALKING)


def field_led(user: User, field_id: str) -> FieldRow:
    """Give one field of a district that somebody leads.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    field_id : str
        Public id.

    Returns
    -------
    FieldRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    return _field(user, field_id, (Role.LEAD,))


def _field(user: User, field_id: str, roles: Iterable[Role]) -> FieldRow:
    for part in memberships(user).filter(role__in=list(roles)):
        found = fields_seen(part).filter(public_id=field_id).first()
        if found is not None:
            return found
    raise Http404("There is no such field for you.")


def walks_seen(part: Membership) -> QuerySet[WalkRow]:
    """Give the walks that somebody may see; a grower sees no walk of an unknown field.

    Parameters
    ----------
    part : Membership
        Their part.

    Returns
    -------
    QuerySet of WalkRow
        The newest first.
    """
    walks = WalkRow.objects.filter(district=part.district).select_related("field__grower")
    if part.role == Role.GROWER:
        walks = walks.filter(field__grower=part.grower).exclude(state__in=("void", "unopened"))
    return newest_first(walks)


def walk_seen(user: User, walk_id: str) -> WalkRow:
    """Give one walk that somebody may see.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    walk_id : str
        Its id.

    Returns
    -------
    WalkRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    return _walk(user, walk_id, tuple(Role))


def walk_led(user: User, walk_id: str) -> WalkRow:
    """Give one walk of a district that somebody leads.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    walk_id : str
        Its id.

    Returns
    -------
    WalkRow

    Raises
    ------
    Http404
        If there is none for them.
    """
    return _walk(user, walk_id, (Role.LEAD,))


def _walk(user: User, walk_id: str, roles: Iterable[Role]) -> WalkRow:
    for part in memberships(user).filter(role__in=list(roles)):
        found = walks_seen(part).filter(walk_id=walk_id).first()
        if found is not None:
            return found
    raise Http404("There is no such walk for you.")


def entries_waiting(part: Membership) -> QuerySet[JournalEntry]:
    """Give the entries that wait for a lead's decision, the oldest first.

    Parameters
    ----------
    part : Membership
        Their part; nothing waits for anybody but a lead.

    Returns
    -------
    QuerySet of JournalEntry
    """
    entries = JournalEntry.objects.filter(state=EntryState.QUARANTINED)
    if part.role != Role.LEAD:
        return entries.none()
    entries = entries.filter(device__district=part.district)
    return entries.select_related("device__person").order_by("received_at", "pk")


def entry_to_decide(user: User, pk: int) -> JournalEntry:
    """Give one entry that was set aside, waiting or left out.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    pk : int
        Its number.

    Returns
    -------
    JournalEntry

    Raises
    ------
    Http404
        If there is none for them.
    """
    led = memberships(user).filter(role=Role.LEAD).values("district")
    entries = JournalEntry.objects.exclude(state=EntryState.HELD)
    found = (
        entries.filter(pk=pk, device__district__in=led)
        .select_related("device__person", "device__district", "decided_by")
        .first()
    )
    if found is None:
        raise Http404("There is no such entry for you.")
    return found


def devices_seen(part: Membership) -> QuerySet[Device]:
    """Give the phones that somebody may see and end: a lead all, a scout their own.

    Parameters
    ----------
    part : Membership
        Their part.

    Returns
    -------
    QuerySet of Device
        The newest first.
    """
    phones = Device.objects.filter(district=part.district, kind=DeviceKind.PHONE)
    phones = phones.select_related("person", "district").order_by("-paired_at", "pk")
    if part.role == Role.LEAD:
        return phones
    if part.role == Role.SCOUT:
        return phones.filter(person=part.person)
    return phones.none()


def device_seen(user: User, device_id: str) -> Device:
    """Give one phone that somebody may end.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    device_id : str
        Its id.

    Returns
    -------
    Device

    Raises
    ------
    Http404
        If there is none for them.
    """
    for part in memberships(user):
        found = devices_seen(part).filter(device_id=device_id).first()
        if found is not None:
            return found
    raise Http404("There is no such phone for you.")


def membership_led(user: User, pk: int) -> Membership:
    """Give one person's part in a district that somebody leads.

    Parameters
    ----------
    user : Person or AnonymousUser
        Who asks.
    pk : int
        Its number.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If there is none for them.
    """
    led = memberships(user).filter(role=Role.LEAD).values("district")
    parts = Membership.objects.select_related("person", "district", "grower")
    found = parts.filter(pk=pk, district__in=led).first()
    if found is None:
        raise Http404("There is no such person for you.")
    return found
