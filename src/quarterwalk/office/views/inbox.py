"""Entries that wait for a lead's decision."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from quarterwalk.office import access
from quarterwalk.office.forms.decision import DecisionForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.inbox import entry_page, inbox_page
from quarterwalk.office.services.journal import decide
from quarterwalk.office.views.here import led_here
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_safe
def inbox(request: HttpRequest) -> HttpResponse:
    """Show the entries that wait, the oldest first."""
    part = led_here(request)
    return show(request, "inbox/list.html", inbox_page(access.entries_waiting(part), part.district))


@require_http_methods(["GET", "POST"])
def entry(request: HttpRequest, pk: int) -> HttpResponse:
    """Show one entry, and take it or leave it out."""
    found = access.entry_to_decide(signed_in(request), pk)
    form = DecisionForm(sent(request))
    if form.is_valid():
        with refusals(form):
            decide(entry=found, by=signed_in(request), **form.cleaned_data)
            tell(request, "Decided. The reason is kept with the entry.")
            return redirect("inbox")
    return show(request, "inbox/entry.html", entry_page(found), form)
