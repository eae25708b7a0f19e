"""Pages on which a lead says how a field is judged."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.page import FormPage, cancel, to_field


def rule_page(row: FieldRow) -> FormPage:
    """Give the page on which a rule is chosen.

    Parameters
    ----------
    row : FieldRow
        The field.

    Returns
    -------
    FormPage
    """
    here = to_field(row.name, row.public_id)
    return FormPage(
        f"{row.name}: rule",
        "Save the rule",
        said=(
            "Choose the published guideline of the field's region. None of them is a default.",
            "Calls that were made before stay to read.",
        ),
        above=here,
        back=cancel(here),
    )


def dates_page(row: FieldRow, year: int) -> FormPage:
    """Give the page on which the dates of a season are given.

    Parameters
    ----------
    row : FieldRow
        The field.
    year : int
        The season's year.

    Returns
    -------
    FormPage
    """
    here = to_field(row.name, row.public_id)
    return FormPage(
        f"{row.name}: dates of {year}",
        "Save the dates",
        said=("First square decides which week's line and floor hold.",),
        above=here,
        back=cancel(here),
    )


@dataclass(frozen=True, slots=True)
class ClosedPage:
    """A form page with a second way: to open what is closed."""

    form: FormPage
    is_closed: bool
    care: str


def closed_page(row: FieldRow) -> ClosedPage:
    """Give the page on which a field is closed or opened.

    Parameters
    ----------
    row : FieldRow
        The field.

    Returns
    -------
    ClosedPage
    """
    here = to_field(row.name, row.public_id)
    page = FormPage(
        f"{row.name}: closed until",
        "Close the field",
        said=(
            "After a spray nobody walks in before the re-entry time on the label is over."
            " Type the day and the time that the label or the sign at the field gives;"
            " of several products the longest holds.",
        ),
        above=here,
        back=cancel(here),
    )
    return ClosedPage(
        page,
        row.closed_until is not None,
        "This office works out no re-entry time. The label, local rules and a licensed"
        " applicator prevail.",
    )
