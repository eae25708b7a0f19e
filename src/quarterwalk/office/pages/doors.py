"""Pages for getting in."""

from __future__ import annotations

from quarterwalk.office.models import SignInLink
from quarterwalk.office.pages.page import FormPage, cancel, to_fields


def password_page() -> FormPage:
    """Give the page on which somebody changes their password.

    Returns
    -------
    FormPage
    """
    return FormPage("Change your password", "Change password", back=cancel(to_fields()))


def join_page(link: SignInLink) -> FormPage:
    """Give the page on which somebody chooses their first password.

    Parameters
    ----------
    link : SignInLink
        What let them in.

    Returns
    -------
    FormPage
    """
    person = link.person
    return FormPage(
        f"Welcome, {person.name}",
        "Save and sign in",
        said=(f"Your sign-in name is {person.sign_in_name}. Choose a password to go with it.",),
    )


def spent_link() -> FormPage:
    """Give the page that a used or old link leads to.

    Returns
    -------
    FormPage
    """
    return FormPage(
        "This link no longer works",
        "",
        said=(
            "A link lets one person in, once, and only for some days."
            " If you have a password, sign in with it."
            " If not, ask the lead of your district for a new link.",
        ),
    )


def begin_page() -> FormPage:
    """Give the first page of a fresh office.

    Returns
    -------
    FormPage
    """
    return FormPage(
        "Begin",
        "Make the office",
        said=(
            "Name the district and yourself. You will lead it, and can then add fields,"
            " scouts and growers.",
        ),
    )
