"""Pages of the people of a district."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from quarterwalk.office.models import Membership, Role
from quarterwalk.office.pages.page import FormPage, Link, cancel


@dataclass(frozen=True, slots=True)
class PersonLine:
    """One person in the list."""

    name: str
    sign_in_name: str
    role: str
    whose: str
    waits: str
    to: str


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """Everybody with a part in a district."""

    title: str
    said: tuple[str, ...]
    people: tuple[PersonLine, ...]


def people_page(parts: Iterable[Membership], own: Membership) -> PeoplePage:
    """List people.

    Parameters
    ----------
    parts : iterable of Membership
        Everybody's.
    own : Membership
        Of whoever looks.

    Returns
    -------
    PeoplePage
    """
    return PeoplePage(
        "People",
        (f"Everybody who has a part in {own.district.name}.",),
        tuple(_person(part) for part in parts),
    )


def _person(part: Membership) -> PersonLine:
    person = part.person
    return PersonLine(
        name=person.name,
        sign_in_name=person.sign_in_name,
        role=Role(part.role).label,
        whose=f"sees the fields of {part.grower}" if part.grower is not None else "",
        waits="" if person.has_usable_password() else "has not chosen a password yet",
        to=reverse("person-role", args=[part.pk]),
    )


def _to_people() -> Link:
    return Link("People", reverse("people"))


def add_page() -> FormPage:
    """Give the page on which somebody is added.

    Returns
    -------
    FormPage
    """
    return FormPage(
        "Add somebody",
        "Add, and make a link",
        said=("You then get a link to hand over to them; with it they choose their password.",),
        above=_to_people(),
        back=cancel(_to_people()),
    )


@dataclass(frozen=True, slots=True)
class PersonPage:
    """One person: their part, a new link, and the end of it."""

    form: FormPage
    link_to: str
    remove_to: str


def person_page(part: Membership) -> PersonPage:
    """Give the page of one person.

    Parameters
    ----------
    part : Membership
        Their part.

    Returns
    -------
    PersonPage
    """
    person = part.person
    form = FormPage(
        person.name,
        "Save the part",
        said=(f"Signs in as {person.sign_in_name}.",),
        above=_to_people(),
        back=cancel(_to_people()),
    )
    return PersonPage(
        form,
        reverse("person-link", args=[part.pk]),
        reverse("person-remove", args=[part.pk]),
    )


@dataclass(frozen=True, slots=True)
class LinkPage:
    """A link to hand over, shown once."""

    title: str
    link: str
    said: tuple[str, ...]
    above: Link


def link_page(part: Membership, link: str) -> LinkPage:
    """Show a link once.

    Parameters
    ----------
    part : Membership
        Whose.
    link : str
        The whole address.

    Returns
    -------
    LinkPage
    """
    name = part.person.name
    return LinkPage(
        f"A link for {name}",
        link,
        (
            f"Hand it over to {name} yourself: whoever opens it signs in as them.",
            "It works once, within 7 days, and will not be shown again. Links from before"
            " no longer work.",
        ),
        _to_people(),
    )
