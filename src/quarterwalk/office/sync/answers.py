"""How the office answers a phone: JSON that nobody keeps, and short words for what is wrong."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from http import HTTPStatus
from typing import Any, Concatenate, ParamSpec

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from quarterwalk.office.models import Device
from quarterwalk.office.services import phones

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponse]
PhoneView = Callable[Concatenate[HttpRequest, Device, P], HttpResponse]

_BEARER = "Bearer "

LARGEST_BODY, MOST_LINES = 1_000_000, 2_000
"""What a phone sends at once, at most. [bytes; count]"""


def told(content: dict[str, Any]) -> JsonResponse:
    """Answer with content.

    Parameters
    ----------
    content : dict
        JSON-able values.

    Returns
    -------
    JsonResponse
    """
    return JsonResponse(content, json_dumps_params={"ensure_ascii": False})


def refused(what: str, status: HTTPStatus) -> JsonResponse:
    """Answer with a short word for what is wrong.

    Parameters
    ----------
    what : str
        Such as ``token``.
    status : HTTPStatus
        The status.

    Returns
    -------
    JsonResponse
    """
    return JsonResponse({"error": what}, status=status)


def open_to_phones(method: str) -> Callable[[View[P]], View[P]]:
    """Let a view be asked without a session: no cookie counts here, so none can be misused.

    Parameters
    ----------
    method : str
        The one HTTP method that it answers.

    Returns
    -------
    callable
        A decorator.
    """

    def wrap(view: View[P]) -> View[P]:
        asked = require_http_methods([method])(view)
        return login_not_required(csrf_exempt(never_cache(asked)))  # type: ignore[no-any-return, return-value, unused-ignore]

    return wrap


def by_phone(view: PhoneView[P]) -> View[P]:
    """Let only a paired phone ask.

    Parameters
    ----------
    view : callable
        Takes the request and the phone.

    Returns
    -------
    callable
        A view that answers 401 where the token is unknown or was ended.
    """

    @wraps(view)
    def asked(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        header = request.headers.get("Authorization", "")
        token = header.removeprefix(_BEARER) if header.startswith(_BEARER) else ""
        device = phones.device_of(token)
        if device is None:
            return refused("token", HTTPStatus.UNAUTHORIZED)
        phones.seen(device=device, phone_now=request.headers.get("Quarterwalk-Now", ""))
        return view(request, device, *args, **kwargs)

    return asked  # type: ignore[return-value]  # `wraps` hides that it takes a request


class TooLarge(Exception):
    """More was sent than is taken at once."""


class Cut(Exception):
    """Less arrived than was promised."""


def body_of(request: HttpRequest) -> bytes:
    """Read what a phone sent, as a whole or not at all.

    Parameters
    ----------
    request : HttpRequest
        The request.

    Returns
    -------
    bytes

    Raises
    ------
    TooLarge
        If it is more than `LARGEST_BODY`.
    Cut
        If it is less than its length says.
    """
    try:
        promised = int(request.headers.get("Content-Length") or 0)
    except ValueError:
        raise Cut from None
    if promised > LARGEST_BODY:
        raise TooLarge
    try:
        body = request.read(promised)
    except OSError as error:
        raise Cut from error
    if len(body) != promised:
        raise Cut
    return bytes(body)
