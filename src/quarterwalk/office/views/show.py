"""How a view answers: a page, with the status that fits the form on it."""

from __future__ import annotations

from http import HTTPStatus

from django.contrib import messages
from django.forms import BaseForm
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render

from quarterwalk.office.models import Person

SIGN_IN = "allauth.account.auth_backends.AuthenticationBackend"
"""What signs people in. [dotted name]"""


def signed_in(request: HttpRequest) -> Person:
    """Give who is signed in.

    Parameters
    ----------
    request : HttpRequest
        Past the middleware that asks for sign-in.

    Returns
    -------
    Person
    """
    if not isinstance(request.user, Person):
        raise TypeError("a page for people who are signed in was asked for by nobody")
    return request.user


def sent(request: HttpRequest) -> QueryDict | None:
    """Give what a form was sent with, were it nothing at all.

    Parameters
    ----------
    request : HttpRequest
        What was asked.

    Returns
    -------
    QueryDict or None
        None where no form was sent.
    """
    return request.POST if request.method == "POST" else None


def show(
    request: HttpRequest, template: str, page: object, form: BaseForm | None = None
) -> HttpResponse:
    """Show a page; a form with faults on it answers 422 and keeps what was typed.

    Parameters
    ----------
    request : HttpRequest
        What was asked.
    template : str
        File name of the template.
    page : object
        What the template shows.
    form : BaseForm or None
        The page's form.

    Returns
    -------
    HttpResponse
    """
    wrong = form is not None and bool(form.errors)
    status = HTTPStatus.UNPROCESSABLE_ENTITY if wrong else HTTPStatus.OK
    return render(request, template, {"page": page, "form": form}, status=status)


def tell(request: HttpRequest, *said: str) -> None:
    """Say on the next page what was done.

    Parameters
    ----------
    request : HttpRequest
        What was asked.
    *said : str
        Sentences.
    """
    for text in said:
        messages.success(request, text)
