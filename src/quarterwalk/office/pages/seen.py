"""What was seen of a crop: its page, and its words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.urls import reverse

from quarterwalk.crop import Seen
from quarterwalk.office.crop_clocks import counts_as_bloom, waits_for_flowers
from quarterwalk.office.models import FieldRow, Membership, Role, SeasonRow, SeenRow
from quarterwalk.office.pages.days import short_day
from quarterwalk.office.pages.page import FormPage, cancel, to_field
from quarterwalk.office.translate_season import stand_planted


@dataclass(frozen=True, slots=True)
class SeenLine:
    """One note of what was seen, with the way to strike it where somebody may."""

    day: str
    words: str
    by: str
    strike_to: str


@dataclass(frozen=True, slots=True)
class SeenPage:
    """The form for what was seen, and what was noted before."""

    form: FormPage
    lines: tuple[SeenLine, ...]


def seen_page(row: FieldRow, part: Membership, seen: Iterable[SeenRow]) -> SeenPage:
    """Give the page on which somebody says what they saw.

    Parameters
    ----------
    row : FieldRow
        The field.
    part : Membership
        Who looks: a lead strikes any note, a scout their own.
    seen : iterable of SeenRow
        What was noted this season.

    Returns
    -------
    SeenPage
    """
    here = to_field(row.name, row.public_id)
    page = FormPage(
        f"{row.name}: what was seen",
        "Save what was seen",
        said=(
            "Where nobody gave first square, these counts tell which week it is."
            " Fill in what you looked at, and leave the rest empty.",
            "The square checks of a walk count by themselves; don't type them in again.",
        ),
        above=here,
        back=cancel(here),
    )
    return SeenPage(page, tuple(_line(each, part) for each in seen))


def _line(seen: SeenRow, part: Membership) -> SeenLine:
    may = part.role == Role.LEAD or seen.by_id == part.person_id
    return SeenLine(
        day=short_day(seen.on),
        words=seen_words(seen),
        by=seen.by.name,
        strike_to=reverse("seen-strike", args=[seen.pk]) if may else "",
    )


def seen_words(seen: SeenRow) -> str:
    """Say what was seen in a few words.

    Parameters
    ----------
    seen : SeenRow
        One note.

    Returns
    -------
    str
        Such as ``4.5 true leaves, squares on 12 of 20 plants``; a table's note stands behind.
    """
    words = ", ".join(_words(seen))
    return f"{words}; {seen.note}" if seen.note else words


def _words(seen: SeenRow) -> Iterator[str]:
    if seen.true_leaves is not None:
        yield f"{seen.true_leaves:g} true leaves"
    if seen.nodes is not None:
        yield f"{seen.nodes:g} nodes"
    if seen.plants is not None:
        looked = f"{seen.plants} plants" if seen.plants != 1 else "1 plant"
        counted = seen.pinhead is not None
        yield f"squares on {seen.pinhead} of {looked}" if counted else f"{looked} looked at"
    if seen.squaring_branches is not None:
        yield f"{seen.squaring_branches:g} squaring branches"
    if seen.bloom is not None:
        yield "white flowers" if seen.bloom else "no white flower yet"
    if seen.nawf is not None:
        yield f"{seen.nawf:g} nodes above white flower"


def seen_taken(season: SeasonRow | None, seen: Seen) -> Iterator[str]:
    """Say what comes of a note.

    Parameters
    ----------
    season : SeasonRow or None
        What is known of the season.
    seen : Seen
        What was noted.

    Yields
    ------
    str
    """
    yield "What was seen is saved."
    if season is not None and season.first_square is not None:
        yield f"First square of this field is given, and it holds{_of_given(season, seen)}"
    elif stand_planted(season) is None:
        yield "Give the day of planting too: without it no stage can be worked out."
    else:
        yield "Where the stage is worked out, calls are made anew; those before stay to read."


def _of_given(season: SeasonRow, seen: Seen) -> str:
    """Say what a note changes where first square was given: only flowers may."""
    if not waits_for_flowers(season) or not seen.flowers:
        return ": its calls stay as they are."
    if not counts_as_bloom(season, seen):
        return f". White flowers on {short_day(seen.on)} can't be true beside it, and do not count."
    return (
        ". First bloom is not, so the first day on which white flowers were noted stands for it."
        " Calls are made anew; those before stay to read."
    )
