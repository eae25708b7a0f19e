"""Pages on which something is done to a walk."""

from __future__ import annotations

from django.urls import reverse

from quarterwalk.call.figures import day_words
from quarterwalk.office.models import WalkRow
from quarterwalk.office.pages.page import FormPage, Link, cancel


def strike_page(row: WalkRow) -> FormPage:
    """Give the page on which a walk is left out.

    Parameters
    ----------
    row : WalkRow
        The walk.

    Returns
    -------
    FormPage
    """
    here = Link("The walk", reverse("walk", args=[row.walk_id]))
    name = row.field.name if row.field is not None else "an unknown field"
    day = f" of {day_words(row.on)}" if row.on is not None else ""
    return FormPage(
        f"Leave this walk out: {name}",
        "Leave it out",
        said=(
            f"The walk{day} will count nowhere: not in calls, not in the list of fields."
            " What was counted on it stays in the journal.",
        ),
        above=here,
        back=cancel(here),
    )
