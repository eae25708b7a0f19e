"""What was seen of many fields, handed in as a table."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.files.seen_table import read_seen
from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.imports import seen_table_page, seen_table_taken
from quarterwalk.office.services.seen import import_seen
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def seen_import(request: HttpRequest) -> HttpResponse:
    """Take what was seen of fields from a table, one row or more a field and day."""
    part = led_here(request)
    form = UploadForm(read_seen, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            done = import_seen(district=part.district, seen=form.told, by=signed_in(request))
            tell(request, *seen_table_taken(done, form.told))
            return redirect("fields")
    return show(request, "imports/file.html", seen_table_page(form), form)
