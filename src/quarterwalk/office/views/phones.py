"""Phones: which are paired, a code for another, and the end of one."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from quarterwalk.office import access
from quarterwalk.office.pages.may import may_as
from quarterwalk.office.pages.phones import code_page, phones_page
from quarterwalk.office.services import phones as changes
from quarterwalk.office.views.here import walked_here
from quarterwalk.office.views.show import show, signed_in, tell


@require_safe
def phones(request: HttpRequest) -> HttpResponse:
    """Show the phones: a lead all of the district, a scout their own."""
    part = walked_here(request)
    return show(
        request,
        "phones/list.html",
        phones_page(access.devices_seen(part), part.district, may_as(part.role)),
    )


@never_cache
@require_POST
def phone_code(request: HttpRequest) -> HttpResponse:
    """Make a code that pairs one phone, and show it once."""
    part = walked_here(request)
    code = changes.make_code(person=part.person, district=part.district)
    link = request.build_absolute_uri(f"/phone/#pair={code}")
    return show(request, "phones/code.html", code_page(code, link))


@require_POST
def phone_revoke(request: HttpRequest, device_id: str) -> HttpResponse:
    """End a phone; what it wrote stays."""
    device = access.device_seen(signed_in(request), device_id)
    changes.revoke(device=device)
    tell(request, f"{device} is no longer paired. What it sent before stays.")
    return redirect("phones")
