"""What is told of one field's season: sentences ready to print, and what the picture needs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonWalk


@dataclass(frozen=True, slots=True)
class SeasonField:
    """Which field a season is told of.

    Parameters
    ----------
    name : str
        As people call it.
    grower : str
        Whose it is; may be empty.
    acres : float or None
        How large it is; None where no boundary is known. [acre]
    replanted : bool
        Whether the stand that grows now was planted over an earlier one.
    """

    name: str
    grower: str = ""
    acres: float | None = None
    replanted: bool = False


@dataclass(frozen=True, slots=True)
class SeasonDone:
    """What was done in a field this season, and when somebody comes back.

    Parameters
    ----------
    walks : tuple of SeasonWalk
        Walks and what they called for.
    next_look : (date, date) or None
        First and last day of the next look.
    treated : tuple of date
        Days of a spray against the insects.
    """

    walks: tuple[SeasonWalk, ...] = ()
    next_look: tuple[date, date] | None = None
    treated: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """One event of the season as a row of the table; what is not known is empty.

    Parameters
    ----------
    event : str
        Its name.
    likely, span : str
        Its likely day, and the days that hold it 8 times in 10 where they are more than one.
    known : str
        Whether it was given, seen or worked out.
    alone : str
        What the weather alone says, where that differs.
    code : str
        Its BBCH code.
    """

    event: str
    likely: str
    span: str
    known: str
    alone: str
    code: str


@dataclass(frozen=True, slots=True)
class SeasonReport:
    """One field's season as scout and advisor read it; page, PDF and text show the same.

    Every text is worded already, in one language, and is plain text: whatever shows it
    escapes it in its own way.

    Parameters
    ----------
    language : str
        What it is worded in.
    field, grower, acres : str
        Which field, for whom, how large; grower and acres may be empty.
    day : str
        The day in words, with the year.
    headline : str
        Where the season stands, in one sentence with its odds.
    stands : tuple of str
        When first square and bloom were or will be, and how that is known.
    ahead : tuple of str
        What comes next, in the order of its days.
    doubts : tuple of str
        What does not agree, with the weather or with what else was seen.
    settle : tuple of str
        What to look at so that it is known better.
    days : tuple of SeasonDay
        The events of the season.
    days_note : str
        What the ranges and codes of the table mean.
    footing : tuple of str
        What it stands on, a paragraph each.
    care : tuple of str
        What to take care of.
    on : date
        The day.
    drawn : SeasonDrawn
        What the picture shows.
    """

    language: str
    field: str
    grower: str
    acres: str
    day: str
    headline: str
    stands: tuple[str, ...]
    ahead: tuple[str, ...]
    doubts: tuple[str, ...]
    settle: tuple[str, ...]
    days: tuple[SeasonDay, ...]
    days_note: str
    footing: tuple[str, ...]
    care: tuple[str, ...]
    on: date
    drawn: SeasonDrawn

    @property
    def about(self) -> str:
        """The day, and how large the field is where that is known."""
        return ", ".join(part for part in (self.day, self.acres) if part)
