"""The district that somebody works in: which it is, and what holds for all its fields."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from quarterwalk.office import access
from quarterwalk.office.forms.ending import EndingForm, begun_with
from quarterwalk.office.frame import DISTRICT_KEY
from quarterwalk.office.pages.ending import ending_page
from quarterwalk.office.services.district import set_stopping
from quarterwalk.office.translate import to_stopping
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_POST
def district_switch(request: HttpRequest) -> HttpResponse:
    """Go to another district that one has a part in."""
    part = access.part_of(signed_in(request), request.POST.get("district", ""))
    request.session[DISTRICT_KEY] = part.district.public_id
    return redirect("fields")


@require_http_methods(["GET", "POST"])
def district_ending(request: HttpRequest) -> HttpResponse:
    """Say whether the walks of the district may end early."""
    district = led_here(request).district
    form = EndingForm(sent(request), initial=begun_with(to_stopping(district)))
    if form.is_valid():
        set_stopping(district=district, stopping=form.cleaned_data["stopping"])
        tell(request, "Saved. Phones get new cards the next time they ask for the day.")
        return redirect("district-ending")
    return show(request, "district/ending.html", ending_page(district), form)
