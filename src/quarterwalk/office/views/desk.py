"""A walk that was kept on paper, typed in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.office import access, clock
from quarterwalk.office.forms.desk import DeskForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.desk import desk_page
from quarterwalk.office.pages.imports import beside_told
from quarterwalk.office.queries.same_day import beside
from quarterwalk.office.services.walks import enter_walk
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def desk_walk(request: HttpRequest, field_id: str) -> HttpResponse:
    """Type in a walk, a quarter at a time."""
    row, person = access.field_walked(signed_in(request), field_id), signed_in(request)
    today = clock.today(row.district)
    form = DeskForm(today, sent(request), initial={"on": today})
    if form.is_valid():
        with refusals(form):
            walk_id = enter_walk(field=row, by=person, **form.walk)
            tell(request, "The walk is saved.", *beside_told(beside([walk_id])))
            return redirect("walk", walk_id)
    page = desk_page(row, form, access.walkers(row.district))
    return show(request, "walk/desk.html", page, form)
