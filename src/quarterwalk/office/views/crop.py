"""The dates of a field's crop."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods

from quarterwalk.office import access, clock
from quarterwalk.office.forms.dates import DatesForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.pages.field_forms import dates_page
from quarterwalk.office.queries.field import season_told
from quarterwalk.office.services.fields import set_dates
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_http_methods(["GET", "POST"])
def field_dates(request: HttpRequest, field_id: str) -> HttpResponse:
    """Say when a field was planted, squared, bloomed and was treated."""
    row = access.field_led(signed_in(request), field_id)
    year = clock.today(row.district).year
    season = season_told(row, year)
    form = DatesForm(season, sent(request))
    if form.is_valid():
        with refusals(form):
            set_dates(field=row, year=year, dates=form.dates, treated=form.treated)
            tell(
                request,
                "The dates are saved. Calls are made anew by them; those before stay to read.",
            )
            return redirect("field", field_id)
    return show(request, "field/dates.html", dates_page(row, year), form)
