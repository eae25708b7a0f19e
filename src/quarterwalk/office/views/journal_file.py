"""What a phone wrote, handed in as a file where there was no signal to send it."""

from __future__ import annotations

from pathlib import Path

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.imports import journal_page, journal_taken
from quarterwalk.office.services.journal import take_file
from quarterwalk.office.views.here import walked_here
from quarterwalk.office.views.show import sent, show, tell


@require_http_methods(["GET", "POST"])
def journal_import(request: HttpRequest) -> HttpResponse:
    """Take the entries of a phone's journal file."""
    part = walked_here(request)
    form = UploadForm(Path.read_bytes, sent(request), request.FILES or None)
    if form.is_valid() and form.told is not None:
        with form.refusals():
            taken = take_file(part.district, form.told)
            tell(request, *journal_taken(taken))
            return redirect("fields")
    return show(request, "imports/file.html", journal_page(form), form)
