"""What stands around every page: who is signed in, where they can go, and the demo's mark."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest
from django.urls import reverse

from quarterwalk.office.access import entries_waiting, memberships
from quarterwalk.office.models import District, Membership, Role
from quarterwalk.office.pages.may import may_as

DISTRICT_KEY = "district"
"""Where a session keeps the district that somebody works in. [session key]"""


@dataclass(frozen=True, slots=True)
class NavItem:
    """One place to go, with how much waits there."""

    label: str
    to: str
    current: bool
    count: int = 0


@dataclass(frozen=True, slots=True)
class Other:
    """Another district that somebody has a part in."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around a page; empty for whoever is not signed in."""

    person: str = ""
    role: str = ""
    district: str = ""
    demo: bool = False
    nav: tuple[NavItem, ...] = ()
    others: tuple[Other, ...] = ()

    @property
    def whose(self) -> str:
        """The district and the person on one line."""
        return " · ".join(part for part in (self.district, self.person) if part)


def frame(request: HttpRequest) -> dict[str, Frame]:
    """Give templates what stands around a page.

    Parameters
    ----------
    request : HttpRequest
        Whose page.

    Returns
    -------
    dict
        Under ``frame``.
    """
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return {"frame": Frame(demo=District.objects.filter(is_demo=True).exists())}
    parts = list(memberships(user))
    chosen = request.session.get(DISTRICT_KEY)
    here = next((p for p in parts if p.district.public_id == chosen), parts[0] if parts else None)
    if here is None:
        return {"frame": Frame(person=user.name)}
    return {"frame": _frame(here, parts, request.path)}


def _frame(here: Membership, parts: list[Membership], path: str) -> Frame:
    others = [p.district for p in parts if p.pk != here.pk]
    return Frame(
        person=here.person.name,
        role=Role(here.role).label,
        district=here.district.name,
        demo=here.district.is_demo,
        nav=tuple(_nav(here, path)),
        others=tuple(Other(d.public_id, d.name) for d in others),
    )


def _nav(here: Membership, path: str) -> list[NavItem]:
    may = may_as(here.role)
    places = [("Fields", "fields", True), ("Inbox", "inbox", may.lead)]
    places += [("Import", "imports", may.walk), ("Phones", "phones", may.walk)]
    places += [("People", "people", may.lead)]
    waiting = entries_waiting(here).count() if may.lead else 0
    return [
        NavItem(label, to, _current(name, path, to), waiting if name == "inbox" else 0)
        for label, name, shown in places
        if shown
        for to in [reverse(name)]
    ]


# What lies below each place, besides what its own address begins with.
_BELOW = {"fields": ("/fields/", "/walks/"), "imports": ("/plantings/", "/weather/", "/journal/")}


def _current(name: str, path: str, to: str) -> bool:
    if path.endswith("/import"):
        return name == "imports"
    return path == to or path.startswith(_BELOW.get(name, (f"{to}/",)))
