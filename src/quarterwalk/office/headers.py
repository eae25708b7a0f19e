"""Headers of every answer: a strict content policy, and nothing stored by others."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

_OWN = "'self'"

_PAGE = {
    "default-src": "'none'",
    "script-src": _OWN,
    "style-src": _OWN,
    "img-src": f"{_OWN} data:",
    "font-src": _OWN,
    "connect-src": _OWN,
    "manifest-src": _OWN,
    "worker-src": _OWN,
    "base-uri": "'none'",
    "form-action": _OWN,
    "frame-ancestors": "'none'",
}

POLICY = "; ".join(f"{name} {value}" for name, value in _PAGE.items())
"""The content policy of every page: only the office's own files, nothing inline."""


class SafeHeaders:
    """Middleware that puts the content policy on every answer."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer a request with the policy on it."""
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        response.headers.setdefault(
            "Permissions-Policy", "camera=(), geolocation=(), microphone=()"
        )
        response.headers.setdefault("Cache-Control", "private, no-cache")
        response.headers.setdefault("Cross-Origin-Opener-Policy", "same-origin")
        return response
