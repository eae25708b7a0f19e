"""People of a district: who is let in, as what, and by which link."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from quarterwalk.office import access
from quarterwalk.office.forms.people import AddPersonForm, PartForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.people import add_page, link_page, people_page, person_page
from quarterwalk.office.queries.people import parts_of
from quarterwalk.office.services import people as changes
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_safe
def people(request: HttpRequest) -> HttpResponse:
    """Show everybody who has a part in the district."""
    part = led_here(request)
    return show(request, "people/list.html", people_page(parts_of(part.district), part))


@never_cache
@require_http_methods(["GET", "POST"])
def person_add(request: HttpRequest) -> HttpResponse:
    """Let somebody in, and show the link that is handed over to them."""
    district = led_here(request).district
    form = AddPersonForm(district, sent(request))
    if form.is_valid():
        with refusals(form):
            person = changes.NewPerson(**form.cleaned_data)
            member, token = changes.add_person(district=district, person=person)
            return show(request, "people/link.html", link_page(member, _link(request, token)))
    return show(request, "people/add.html", add_page(), form)


@require_http_methods(["GET", "POST"])
def person_role(request: HttpRequest, pk: int) -> HttpResponse:
    """Give somebody another part."""
    member = access.membership_led(signed_in(request), pk)
    begun = {"role": member.role, "grower": member.grower_id}
    form = PartForm(member.district, sent(request), initial=begun)
    if form.is_valid():
        with refusals(form):
            changes.change_role(part=member, **form.cleaned_data)
            tell(request, f"{member.person} has another part now.")
            return redirect("people")
    return show(request, "people/person.html", person_page(member), form)


@never_cache
@require_POST
def person_link(request: HttpRequest, pk: int) -> HttpResponse:
    """Make a new link for somebody, and show it once."""
    member = access.membership_led(signed_in(request), pk)
    token = changes.new_link(member)
    return show(request, "people/link.html", link_page(member, _link(request, token)))


@require_POST
def person_remove(request: HttpRequest, pk: int) -> HttpResponse:
    """Take somebody's part in the district away."""
    member = access.membership_led(signed_in(request), pk)
    form = PartForm(member.district, {"role": member.role, "grower": member.grower_id})
    if form.is_valid():
        with refusals(form):
            changes.take_away(part=member)
            tell(request, f"{member.person} has no part in this district any more.")
            return redirect("people")
    return show(request, "people/person.html", person_page(member), form)


def _link(request: HttpRequest, token: str) -> str:
    return request.build_absolute_uri(f"/join/{token}")
