"""The phone page: its files, which a phone keeps and works from without signal."""

from __future__ import annotations

from functools import cache
from hashlib import sha256

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from quarterwalk.phone import content_type, phone_files

# The page asks for no place and no picture, and never sends a form.
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
    " font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self';"
    " base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)


@login_not_required
@require_safe
def phone_page(request: HttpRequest) -> HttpResponse:
    """Give the page itself."""
    return _answer(request, "index.html")


@login_not_required
@require_safe
def phone_file(request: HttpRequest, name: str) -> HttpResponse:
    """Give one of the page's files."""
    return _answer(request, name)


def _answer(request: HttpRequest, name: str) -> HttpResponse:
    content, tag = _file(name)
    headers = {
        "Cache-Control": "no-cache",
        "ETag": tag,
        "Content-Security-Policy": _POLICY,
    }
    whole = HttpResponse(content, content_type=content_type(name), headers=headers)
    answer = get_conditional_response(request, etag=tag, response=whole) or whole
    # "not modified" comes without it, and what it comes with takes the place of what was kept
    answer.headers["Content-Security-Policy"] = _POLICY
    return answer


@cache
def _file(name: str) -> tuple[bytes, str]:
    """Read a file once, with the tag that changes with it."""
    path = phone_files().get(name)
    if path is None:
        raise Http404(f"The phone page has no file {name}.")
    content = path.read_bytes()
    return content, f'"{sha256(content).hexdigest()}"'
