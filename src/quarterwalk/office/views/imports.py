"""What can be handed in as a file."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from quarterwalk.office.pages.imports import imports_page
from quarterwalk.office.pages.may import may_as
from quarterwalk.office.views.here import walked_here
from quarterwalk.office.views.show import show


@require_safe
def imports(request: HttpRequest) -> HttpResponse:
    """Show which files may be handed in."""
    part = walked_here(request)
    return show(request, "imports/list.html", imports_page(may_as(part.role)))
