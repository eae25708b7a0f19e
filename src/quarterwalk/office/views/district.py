"""The district that somebody works in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from quarterwalk.office import access
from quarterwalk.office.frame import DISTRICT_KEY
from quarterwalk.office.views.show import signed_in


@require_POST
def district_switch(request: HttpRequest) -> HttpResponse:
    """Go to another district that one has a part in."""
    part = access.part_of(signed_in(request), request.POST.get("district", ""))
    request.session[DISTRICT_KEY] = part.district.public_id
    return redirect("fields")
