"""A region's published rule as values: lines, floors, season, and the source of each number.

Every number is a `fractions.Fraction`, so that a count is compared with a line or a
floor exactly, without rounding.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from quarterwalk.walk.kinds import Method
from quarterwalk.words import phrase

SHORT_HASH = 12
"""Characters of the content hash that are printed; enough to tell editions apart. [count]"""


CLOSEST_WATCH_WEEKS = 3
"""Squaring weeks of the closest watch, the shortest season of the format. [weeks]
Common practice: the closest watch is in the first 3 weeks of squaring."""


class SeasonEnd(StrEnum):
    """When a guideline stops holding; the day named is the first one outside."""

    WEEK_3 = "after-week-3"
    """After squaring week 3, or at first bloom where that comes sooner."""
    FIRST_BLOOM = "first-bloom"
    WEEK_AFTER_BLOOM = "7-days-after-first-bloom"


class SourceKind(StrEnum):
    """How firmly a number stands."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common-practice"
    FROM_MEMORY = "from-memory"
    OWN_RULE = "own-rule"
    """A rule of whoever wrote the file; none of the packaged guidelines has one."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number comes from: a document, or a plain word that there is none."""

    key: str
    title: str
    number: str = ""
    place: str = ""
    year: int | None = None
    kind: SourceKind = SourceKind.PUBLISHED
    note: str = ""

    @property
    def citation(self) -> str:
        """Name the source on one line: title, number, place, year and how firm it is.

        Returns
        -------
        str
            One line without a full stop, what is said of the source in the language spoken;
            a year already in the title is not repeated.
        """
        parts = [self.title, self.number, self.place]
        if self.year is not None and str(self.year) not in self.title:
            parts.append(str(self.year))
        text = ", ".join(part for part in parts if part)
        if self.kind is SourceKind.FROM_MEMORY:
            return phrase("{source} (from memory, not checked)", source=text)
        if self.kind is SourceKind.PUBLISHED and self.year is None:
            return phrase("{source} (year not recorded)", source=text)
        return text


@dataclass(frozen=True, slots=True)
class Note:
    """Something a source says that the rule itself does not hold, often a disagreement."""

    text: str
    source: Source


@dataclass(frozen=True, slots=True)
class Line:
    """How many insects per 100 it takes, adults and nymphs together.

    `weeks` are the squaring weeks it holds for; none named means the whole season.
    `low` and `high` are the ends of the published range, equal where one number is
    published. [insects per 100 terminals, or per 100 sweeps]
    """

    weeks: tuple[int, ...]
    low: Fraction
    high: Fraction
    source: Source

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.high:
            raise ValueError(
                f"a line must run from above 0 upwards, got {self.low} to {self.high}."
                " Give the lower end first."
            )


@dataclass(frozen=True, slots=True)
class Floor:
    """The square set that the field should not be under in some squaring weeks.

    `and_later` says that it also holds in all later weeks until the season ends.
    `floor` is a share. [fraction, 0 to 1]
    """

    weeks: tuple[int, ...]
    and_later: bool
    floor: Fraction
    source: Source

    def __post_init__(self) -> None:
        if not self.weeks or not 0 < self.floor < 1:
            raise ValueError(
                f"a floor must name its weeks and lie between 0 and 1, got {self.floor}"
                f" for weeks {list(self.weeks)}. Write 0.85 for 85 %."
            )


@dataclass(frozen=True, slots=True)
class BlastedShare:
    """The share of squares blasted that, with enough insects, makes the case to treat.

    `well_over` is the share above which other causes are looked for even where the
    insects are few. Both are shares. [fraction, 0 to 1]
    """

    at_least: Fraction
    well_over: Fraction
    source: Source


@dataclass(frozen=True, slots=True)
class HalfLine:
    """The square set at or below which the line is halved. [fraction, 0 to 1]"""

    at_or_below: Fraction
    source: Source


@dataclass(frozen=True, slots=True)
class Guideline:
    """One region's rule for one way of counting, in one edition.

    `hash` is the SHA-256 of the content [64 hex digits]; it moves with any number,
    date or word, and not with comments or the order of keys. `own` marks a
    user's own file: its name may equal a packaged one.
    """

    name: str
    edition: str
    title: str
    region: str
    method: Method
    season_end: SeasonEnd
    season_source: Source
    lines: tuple[Line, ...]
    floors: tuple[Floor, ...]
    blasted: BlastedShare | None
    half_line: HalfLine | None
    sources: tuple[Source, ...]
    notes: tuple[Note, ...]
    hash: str
    own: bool = False

    def __post_init__(self) -> None:
        if not self.lines:
            raise ValueError(f"guideline {self.name} must have a line, got none. Add one.")

    @property
    def needs_set(self) -> bool:
        """Tell whether treating takes both insects and square loss.

        Returns
        -------
        bool
            True where the rule has floors or a blasted share.
        """
        return bool(self.floors) or self.blasted is not None

    @property
    def reads_squares(self) -> bool:
        """Tell whether the rule looks at squares at all.

        Returns
        -------
        bool
            True where squares are part of the rule, or can halve its line.
        """
        return self.needs_set or self.half_line is not None

    @property
    def short_hash(self) -> str:
        """Give the beginning of the content hash, for print.

        Returns
        -------
        str
            The first 12 hex digits.
        """
        return self.hash[:SHORT_HASH]

    def line_for(self, week: int | None) -> Line:
        """Give the line in force in a squaring week.

        Parameters
        ----------
        week : int or None
            Squaring week, the first is 1 [count]; None once the field blooms.

        Returns
        -------
        Line
            The week's line; past the last week named, and in bloom, the last one.
        """
        for line in self.lines:
            if not line.weeks or week in line.weeks:
                return line
        return self.lines[-1]

    def floor_for(self, week: int | None) -> Floor | None:
        """Give the square set that the field should not be under in a squaring week.

        Parameters
        ----------
        week : int or None
            Squaring week, the first is 1 [count]; None once the field blooms.

        Returns
        -------
        Floor or None
            The week's floor; past the last week named, and in bloom, the one that says
            it holds later too; None where there is none.
        """
        for floor in self.floors:
            if week in floor.weeks:
                return floor
        for floor in self.floors:
            if floor.and_later and (week is None or week > max(floor.weeks)):
                return floor
        return None

    def allowed_line(self) -> tuple[Fraction, Fraction] | None:
        """Give the range within which an advisor may choose the line.

        Returns
        -------
        (Fraction, Fraction) or None
            Lower and upper end, both allowed [insects per 100]; equal where one number
            is published; None where the weekly lines share no number.
        """
        low = max(line.low for line in self.lines)
        high = min(line.high for line in self.lines)
        return (low, high) if low <= high else None
