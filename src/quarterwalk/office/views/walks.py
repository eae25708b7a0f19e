"""Walks handed in as a table."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.files import read_walks
from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.imports import beside_told, walks_page, walks_taken
from quarterwalk.office.queries.same_day import beside
from quarterwalk.office.services.walks import import_walks
from quarterwalk.office.views.here import walked_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def walks_import(request: HttpRequest) -> HttpResponse:
    """Take walks from a table, one row a plant."""
    part = walked_here(request)
    form = UploadForm(read_walks, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            done = import_walks(district=part.district, walks=form.told, by=signed_in(request))
            tell(request, *walks_taken(done, form.told), *beside_told(beside(done.walk_ids)))
            return redirect("fields")
    return show(request, "imports/file.html", walks_page(form), form)
