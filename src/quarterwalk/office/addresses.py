"""Addresses that can't be: refused before anything looks for what they name."""

from __future__ import annotations

from collections.abc import Callable

from django.http import Http404, HttpRequest, HttpResponse


class PlainAddresses:
    """Middleware that finds nothing at an address with a NUL in it: no text of ours has one.

    PostgreSQL can't even look for it.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer a request, unless its address can't be."""
        return self.get_response(request)

    def process_view(self, request: HttpRequest, *_: object) -> None:
        """Refuse before the page is asked."""
        if "\x00" in request.path or "%00" in request.META.get("QUERY_STRING", ""):
            raise Http404("There is no such address.")
