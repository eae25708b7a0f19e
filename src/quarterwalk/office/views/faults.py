"""Pages for when something is not there, was lost, or broke."""

from __future__ import annotations

from http import HTTPStatus

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Say that there is no such page, or none for whoever asks."""
    return render(request, "faults/not_found.html", status=HTTPStatus.NOT_FOUND)


def lost_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Say that a form came without the mark that it is the office's own."""
    return render(request, "faults/lost_form.html", status=HTTPStatus.FORBIDDEN)


def broken(request: HttpRequest) -> HttpResponse:
    """Say that the office broke; asks nothing of it, not even who is signed in."""
    page = render_to_string("faults/broken.html")
    return HttpResponse(page, status=HTTPStatus.INTERNAL_SERVER_ERROR)
