"""The list of fields, and boundaries handed in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from quarterwalk.files.boundaries import read_fields
from quarterwalk.office import access, clock
from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.field_list import field_list
from quarterwalk.office.pages.imports import fields_page, fields_taken
from quarterwalk.office.pages.may import may_as
from quarterwalk.office.queries.standing import standings
from quarterwalk.office.services import fields as changes
from quarterwalk.office.views.here import led_here, part_here
from quarterwalk.office.views.show import sent, show, tell


@require_safe
def fields(request: HttpRequest) -> HttpResponse:
    """Show which fields wait, in order of urgency."""
    part = part_here(request)
    today = clock.today(part.district)
    found = standings(access.fields_seen(part), today)
    return show(request, "fields/list.html", field_list(found, today, may_as(part.role)))


@require_http_methods(["GET", "POST"])
def fields_import(request: HttpRequest) -> HttpResponse:
    """Take the boundaries of fields from a file."""
    part = led_here(request)
    form = UploadForm(read_fields, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            added = changes.add_fields(district=part.district, fields=form.told.fields)
            tell(request, *fields_taken(added, form.told))
            return redirect("fields")
    return show(request, "imports/file.html", fields_page(form), form)
