"""What pages have in common: links, and forms with their buttons."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead somewhere."""

    words: str
    to: str


@dataclass(frozen=True, slots=True)
class FormPage:
    """A page whose middle is one form.

    Parameters
    ----------
    title : str
        Its heading.
    button : str
        What the one filled button does.
    said : tuple of str
        Sentences below the heading.
    above : Link or None
        Where the page belongs.
    back : Link or None
        The way out without saving.
    below : tuple of str
        Sentences below the form.
    """

    title: str
    button: str
    said: tuple[str, ...] = ()
    above: Link | None = None
    back: Link | None = None
    below: tuple[str, ...] = ()


def to_field(name: str, field_id: str) -> Link:
    """Lead to a field's page.

    Parameters
    ----------
    name, field_id : str
        The field's name and public id. [text]

    Returns
    -------
    Link
    """
    return Link(name, reverse("field", args=[field_id]))


def to_fields() -> Link:
    """Lead to the list of fields.

    Returns
    -------
    Link
    """
    return Link("Fields", reverse("fields"))


def cancel(link: Link) -> Link:
    """Lead back without saving.

    Parameters
    ----------
    link : Link
        Where to. [link]

    Returns
    -------
    Link
    """
    return Link("Cancel", link.to)
