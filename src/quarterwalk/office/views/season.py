"""One field's season: as a page, and as a sheet to print."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from quarterwalk.office import access, clock
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.season_page import can_print, season_page, sheet_name
from quarterwalk.office.queries.season import SeasonSeen, season_seen
from quarterwalk.office.views.show import show, signed_in
from quarterwalk.report.season_pdf import season_pdf


@require_safe
def field_season(request: HttpRequest, field_id: str) -> HttpResponse:
    """Show where a field's season stands and what comes next."""
    row, seen = _seen(request, field_id)
    return show(request, "field/season.html", season_page(row, seen))


@require_safe
def field_season_pdf(request: HttpRequest, field_id: str) -> HttpResponse:
    """Give a field's season as a sheet to print."""
    row, seen = _seen(request, field_id)
    if seen.report is None or not can_print():
        raise Http404("There is no season to print.")
    headers = {"Content-Disposition": f'attachment; filename="{sheet_name(row, seen.report.on)}"'}
    content = season_pdf([seen.report])
    return HttpResponse(content, content_type="application/pdf", headers=headers)


def _seen(request: HttpRequest, field_id: str) -> tuple[FieldRow, SeasonSeen]:
    row = access.field_walked(signed_in(request), field_id)
    part = access.part_of(signed_in(request), row.district.public_id)
    return row, season_seen(row, part, clock.today(row.district))
