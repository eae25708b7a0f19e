"""Dates of many fields, handed in as a table."""

from __future__ import annotations

from functools import partial

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.files import read_plantings
from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.imports import plantings_page, plantings_taken
from quarterwalk.office.services.fields import set_plantings
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, tell


@require_http_methods(["GET", "POST"])
def plantings_import(request: HttpRequest) -> HttpResponse:
    """Take the dates of fields from a table of plantings."""
    part = led_here(request)
    read = partial(read_plantings, need_first_square=False)
    form = UploadForm(read, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            names = set_plantings(district=part.district, plantings=form.told)
            tell(request, *plantings_taken(names, form.told))
            return redirect("fields")
    return show(request, "imports/file.html", plantings_page(form), form)
