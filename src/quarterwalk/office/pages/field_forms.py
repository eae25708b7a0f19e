"""Pages on which a lead says how a field is judged."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.guideline.page import guideline_page
from quarterwalk.office.models import FieldRow
from quarterwalk.office.pages.page import FormPage, cancel, to_field

# What fits beside the margins of a telephone in small letters of one width. [characters]
_WIDTH = 42


@dataclass(frozen=True, slots=True)
class RulePage:
    """A form page with a second button, and what is published.

    Parameters
    ----------
    form : FormPage
        The page.
    rest : str
        What the second button does: the rule for other fields too; empty where all have one.
    shelf : tuple of (str, str)
        Region of each guideline, and its lines and floors with their sources.
    """

    form: FormPage
    rest: str
    shelf: tuple[tuple[str, str], ...]


def rule_page(row: FieldRow, others: int) -> RulePage:
    """Give the page on which a rule is chosen.

    Parameters
    ----------
    row : FieldRow
        The field.
    others : int
        Other fields of the district that have no rule. [count]

    Returns
    -------
    RulePage
    """
    here = to_field(row.name, row.public_id)
    noun = "1 other field" if others == 1 else f"{others} other fields"
    rules = [load_guideline(name) for name in guideline_names()]
    form = FormPage(
        f"{row.name}: rule",
        "Save the rule",
        said=(
            "Choose the published guideline of the field's region. None of them is a default.",
            "Calls that were made before stay to read.",
        ),
        above=here,
        back=cancel(here),
    )
    return RulePage(
        form,
        f"Save it for {noun} without a rule too" if others else "",
        tuple((rule.region, guideline_page(rule, width=_WIDTH)) for rule in rules),
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
