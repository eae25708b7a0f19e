"""The district that somebody works in just now."""

from __future__ import annotations

from django.http import Http404, HttpRequest

from quarterwalk.office import access
from quarterwalk.office.frame import DISTRICT_KEY
from quarterwalk.office.models import Membership


def part_here(request: HttpRequest) -> Membership:
    """Give the part that whoever asks has in the district they work in.

    Parameters
    ----------
    request : HttpRequest
        What was asked.

    Returns
    -------
    Membership
        In the district of their session, or else in their first one.

    Raises
    ------
    Http404
        If they have no part in any district.
    """
    chosen = request.session.get(DISTRICT_KEY)
    try:
        return access.part_of(request.user, chosen)
    except Http404:
        return access.part_of(request.user)


def led_here(request: HttpRequest) -> Membership:
    """Give the part of a lead in the district they work in.

    Parameters
    ----------
    request : HttpRequest
        What was asked.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If they do not lead it.
    """
    return access.lead_of(request.user, part_here(request).district)


def walked_here(request: HttpRequest) -> Membership:
    """Give the part of a lead or a scout in the district they work in.

    Parameters
    ----------
    request : HttpRequest
        What was asked.

    Returns
    -------
    Membership

    Raises
    ------
    Http404
        If they may not walk in it.
    """
    return access.walker_of(request.user, part_here(request).district)
