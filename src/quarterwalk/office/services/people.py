"""People: who is let in, by which link, and with which part."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import available_timezones

from django.core import signing
from django.db import transaction

from quarterwalk.office import clock
from quarterwalk.office.models import (
    Device,
    District,
    Grower,
    Membership,
    Person,
    Role,
    SignInLink,
)
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.tokens import hashed, new_token
from quarterwalk.office.services.turn import take_turn

LINK_LIVES = timedelta(days=7)
"""How long a link waits for its person."""

_BEGIN = "begin"
_BEGIN_LIVES = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class NewPerson:
    """Somebody who is to be let in.

    Parameters
    ----------
    name : str
        As others call them.
    sign_in_name : str
        What they type to sign in; told apart from others in any letter case.
    role : Role
        Their part.
    grower : Grower or None
        Whose fields they see; for a grower only.
    """

    name: str
    sign_in_name: str
    role: Role
    grower: Grower | None = None


@transaction.atomic
def add_person(*, district: District, person: NewPerson) -> tuple[Membership, str]:
    """Let somebody in, and make the link by which they choose their password.

    Parameters
    ----------
    district : District
        Where.
    person : NewPerson
        Who, and what they may do.

    Returns
    -------
    (Membership, str)
        Their part, and the link's token: it is shown once.

    Raises
    ------
    ServiceRefused
        If the sign-in name is taken, or a grower has no grower.
    """
    if Person.objects.filter(sign_in_name__iexact=person.sign_in_name).exists():
        raise ServiceRefused(
            f"Somebody signs in as {person.sign_in_name} already. Choose another name.",
            "sign_in_name",
        )
    grower = _grower_for(district, person.role, person.grower)
    made = Person(sign_in_name=person.sign_in_name, name=person.name)
    made.set_unusable_password()
    made.save()
    part = Membership.objects.create(
        person=made, district=district, role=person.role, grower=grower
    )
    return part, new_link(part)


def new_link(part: Membership) -> str:
    """Make a link by which somebody chooses their password; older ones end.

    Parameters
    ----------
    part : Membership
        Whose.

    Returns
    -------
    str
        The token: it is shown once.

    Raises
    ------
    ServiceRefused
        If they have a part in another district too: no lead opens what another leads.
    """
    if part.person.memberships.exclude(district=part.district).exists():
        raise ServiceRefused(f"{part.person} has a part in another district too.")
    now = clock.now()
    SignInLink.objects.filter(person=part.person, used_at=None, lasting=False).update(ends_at=now)
    return _link(part.person, now + LINK_LIVES, lasting=False)


def lasting_link(*, person: Person, until: datetime) -> str:
    """Make a link that signs somebody of the demo in, again and again.

    Parameters
    ----------
    person : Person
        Who.
    until : datetime
        When it ends.

    Returns
    -------
    str
        The token.
    """
    return _link(person, until, lasting=True)


def _link(person: Person, until: datetime, *, lasting: bool) -> str:
    token = new_token()
    SignInLink.objects.create(
        token_hash=hashed(token),
        person=person,
        made_at=clock.now(),
        ends_at=until,
        lasting=lasting,
    )
    return token


def use_link(token: str) -> SignInLink | None:
    """Find the link of a token, if it still opens.

    Parameters
    ----------
    token : str
        From the address.

    Returns
    -------
    SignInLink or None
        None where it was used, has ended, or never was.
    """
    links = SignInLink.objects.select_related("person").filter(
        token_hash=hashed(token), used_at=None, ends_at__gt=clock.now(), person__is_active=True
    )
    return links.first()


@transaction.atomic
def choose_password(*, link: SignInLink, password: str) -> Person:
    """Give a person their password; the link is used up.

    Parameters
    ----------
    link : SignInLink
        From `use_link`.
    password : str
        Checked already.

    Returns
    -------
    Person

    Raises
    ------
    ServiceRefused
        If the link was used in the meantime, or has ended.
    """
    now = clock.now()
    open_yet = SignInLink.objects.filter(pk=link.pk, used_at=None, lasting=False, ends_at__gt=now)
    if not open_yet.update(used_at=now):
        raise ServiceRefused("This link was used already, or has ended. Ask for another.")
    link.person.set_password(password)
    link.person.save(update_fields=["password"])
    return link.person


@transaction.atomic
def change_role(*, part: Membership, role: Role, grower: Grower | None = None) -> None:
    """Give somebody another part.

    Parameters
    ----------
    part : Membership
        The part they have.
    role : Role
        The one they get.
    grower : Grower or None
        Whose fields they see; for a grower only.

    Raises
    ------
    ServiceRefused
        If the district would be without a lead, or a grower has no grower.
    """
    take_turn(part.district)
    if role != Role.LEAD:
        _keep_a_lead(part)
    part.role = role
    part.grower = _grower_for(part.district, role, grower)
    part.save(update_fields=["role", "grower"])


@transaction.atomic
def take_away(*, part: Membership) -> None:
    """Take somebody's part away; their phones of the district end with it.

    Parameters
    ----------
    part : Membership
        Their part.

    Raises
    ------
    ServiceRefused
        If the district would be without a lead.
    """
    take_turn(part.district)
    _keep_a_lead(part)
    phones = Device.objects.filter(person=part.person, district=part.district, revoked_at=None)
    phones.update(revoked_at=clock.now())
    part.delete()


def _keep_a_lead(part: Membership) -> None:
    leads = Membership.objects.filter(
        district=part.district, role=Role.LEAD, person__is_active=True
    )
    if leads.filter(pk=part.pk).exists() and not leads.exclude(pk=part.pk).exists():
        raise ServiceRefused(f"{part.district} needs a lead. Make somebody else a lead first.")


def _grower_for(district: District, role: Role, grower: Grower | None) -> Grower | None:
    if role != Role.GROWER:
        return None
    if grower is None or grower.district_id != district.pk:
        raise ServiceRefused("Say whose fields a grower sees.", "grower")
    return grower


def begin_link() -> str | None:
    """Make the link that opens an office in which nobody can sign in yet.

    Returns
    -------
    str or None
        The token; None where there is somebody already.
    """
    if Person.objects.exists():
        return None
    return signing.dumps(_BEGIN, salt=_BEGIN)


def may_begin(token: str) -> bool:
    """Tell whether a link opens an office in which nobody can sign in yet.

    Parameters
    ----------
    token : str
        From the address.

    Returns
    -------
    bool
    """
    if Person.objects.exists():
        return False
    try:
        return bool(signing.loads(token, salt=_BEGIN, max_age=_BEGIN_LIVES) == _BEGIN)
    except signing.BadSignature:
        return False


@dataclass(frozen=True, slots=True)
class Beginning:
    """What an office begins with: its district, and its first lead.

    Parameters
    ----------
    district : str
        The district's name.
    time_zone : str
        Name in the time zone database, such as ``America/Chicago``.
    name, sign_in_name, password : str
        The lead's.
    """

    district: str
    time_zone: str
    name: str
    sign_in_name: str
    password: str


@transaction.atomic
def begin_office(told: Beginning) -> Person:
    """Make the first district and its lead.

    Parameters
    ----------
    told : Beginning
        Both.

    Returns
    -------
    Person
        The lead.

    Raises
    ------
    ServiceRefused
        If there is somebody already, or the time zone is none.
    """
    if Person.objects.exists():
        raise ServiceRefused("This office has its people already. Ask a lead for a link.")
    if told.time_zone not in available_timezones():
        raise ServiceRefused(
            f'There is no time zone "{told.time_zone}". One is America/Chicago.', "time_zone"
        )
    lead = Person(sign_in_name=told.sign_in_name, name=told.name)
    lead.set_password(told.password)
    lead.save()
    district = District.objects.create(name=told.district, time_zone=told.time_zone)
    Membership.objects.create(person=lead, district=district, role=Role.LEAD)
    return lead
