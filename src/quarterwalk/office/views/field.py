"""One field: how it stands, the rule it is judged by, and when it is closed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from quarterwalk.office import access, clock
from quarterwalk.office.forms.closed import ClosedForm
from quarterwalk.office.forms.refused import refusals
from quarterwalk.office.forms.rule import RuleForm
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.field import field_page
from quarterwalk.office.pages.field_forms import closed_page, rule_page
from quarterwalk.office.pages.may import may_as
from quarterwalk.office.queries.field import field_told, others_without_rule
from quarterwalk.office.services import fields as changes
from quarterwalk.office.views.show import sent, show, signed_in, tell


@require_safe
def field(request: HttpRequest, field_id: str) -> HttpResponse:
    """Show one field with its walks."""
    row = access.field_seen(signed_in(request), field_id)
    part = access.part_of(signed_in(request), row.district.public_id)
    told = field_told(row, part, clock.now())
    return show(request, "field/field.html", field_page(told, may_as(part.role)))


@require_http_methods(["GET", "POST"])
def field_rule(request: HttpRequest, field_id: str) -> HttpResponse:
    """Choose the guideline that a field is judged by, and the line inside its range."""
    row = access.field_led(signed_in(request), field_id)
    begun = {"guideline": row.guideline, "line": row.line}
    form = RuleForm(sent(request), initial=begun)
    if form.is_valid():
        with refusals(form):
            tell(request, *_ruled(row, form.cleaned_data, rest="rest" in request.POST))
            return redirect("field", field_id)
    return show(request, "field/rule.html", rule_page(row, others_without_rule(row)), form)


def _ruled(row: FieldRow, rule: Mapping[str, str], *, rest: bool) -> Iterator[str]:
    """Keep a rule, for the other fields without one too where that was asked; say what was done."""
    others = 0
    if rest:
        others = changes.set_rule_for_rest(field=row, **rule)
    else:
        changes.set_rule(field=row, **rule)
    yield "The rule is saved. Calls are made anew by it; those before stay to read."
    if others:
        yield f"It holds for {others} more field{'' if others == 1 else 's'} that had none."


@require_http_methods(["GET", "POST"])
def field_closed(request: HttpRequest, field_id: str) -> HttpResponse:
    """Close a field until a time that somebody read on the label or the sign, or open it."""
    row = access.field_led(signed_in(request), field_id)
    begun = {"until": row.closed_until, "why": row.closed_why}
    form = ClosedForm(row.district.time_zone, sent(request), initial=begun)
    if "open" in request.POST:
        changes.open_field(field=row)
        tell(request, "The field is marked as open. Check for a sign at the gate all the same.")
        return redirect("field", field_id)
    if form.is_valid():
        changes.close_field(field=row, **form.cleaned_data)
        tell(request, "The field is marked as closed.")
        return redirect("field", field_id)
    return show(request, "field/closed.html", closed_page(row), form)
