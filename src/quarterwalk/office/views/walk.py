"""One walk: its call, what was found, and its table."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from quarterwalk.office import access
from quarterwalk.office.forms.decision import SureForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.may import may_as
from quarterwalk.office.pages.walk import walk_page
from quarterwalk.office.pages.walk_forms import strike_page
from quarterwalk.office.pages.walk_table import table_bytes, table_name
from quarterwalk.office.queries.walk import walk_told
from quarterwalk.office.services.calls import call_for
from quarterwalk.office.services.walks import strike_walk
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_safe
def walk(request: HttpRequest, walk_id: str) -> HttpResponse:
    """Show one walk with its call."""
    row = access.walk_seen(signed_in(request), walk_id)
    part = access.part_of(signed_in(request), row.district.public_id)
    page = walk_page(walk_told(row), may_as(part.role))
    return show(request, "walk/walk.html", page)


@require_safe
def walk_table(request: HttpRequest, walk_id: str) -> HttpResponse:
    """Give the walk as a table, one row a plant."""
    row = access.walk_seen(signed_in(request), walk_id)
    judged = call_for(row)
    if judged is None:
        raise Http404("This walk has no plants yet.")
    headers = {"Content-Disposition": f'attachment; filename="{table_name(row)}"'}
    content = table_bytes(judged)
    return HttpResponse(content, content_type="text/csv; charset=utf-8", headers=headers)


@require_http_methods(["GET", "POST"])
def walk_strike(request: HttpRequest, walk_id: str) -> HttpResponse:
    """Leave a walk out, with the reason; its entries stay."""
    row = access.walk_led(signed_in(request), walk_id)
    form = SureForm(sent(request))
    if form.is_valid():
        with refusals(form):
            strike_walk(walk=row, by=signed_in(request))
            tell(request, "The walk is left out. What was counted on it is still kept.")
            return redirect("walk", walk_id)
    return show(request, "walk/strike.html", strike_page(row), form)
