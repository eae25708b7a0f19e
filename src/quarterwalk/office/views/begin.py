"""The first page of a fresh office: its district and its first lead."""

from __future__ import annotations

from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from quarterwalk.office.forms.begin import BeginForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.doors import begin_page, spent_link
from quarterwalk.office.services import people
from quarterwalk.office.views.show import SIGN_IN, sent, show


@login_not_required
@never_cache
@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def begin(request: HttpRequest, token: str) -> HttpResponse:
    """Open an office in which nobody can sign in yet."""
    if not people.may_begin(token):
        return show(request, "doors/spent.html", spent_link())
    form = BeginForm(sent(request))
    if form.is_valid():
        with refusals(form):
            lead = people.begin_office(people.Beginning(**form.cleaned_data))
            login(request, lead, backend=SIGN_IN)
            return redirect("fields")
    return show(request, "doors/begin.html", begin_page(), form)
