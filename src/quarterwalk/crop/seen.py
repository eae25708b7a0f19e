"""What someone saw of a field's crop on a day, and what was given outright."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby

from quarterwalk.crop.dates import CropDateError

# A look so long before planting is told as a contradiction, since one of the two days is
# wrong; an older one is of another season (a rule of this project). [days]
_SAME_SEASON = 60

SOON_FOR_FLOWERS = 14
"""Flowers sooner after first square are a slip: bloom takes 20 days and more from first square in
the heat of any cotton country (a rule of this project). [days]"""


class Sign(StrEnum):
    """What tells where a crop stands."""

    PLANTED = "planted"
    LEAVES = "true-leaves"
    NODES = "nodes"
    PINHEADS = "pinheads"
    BRANCHES = "squaring-branches"
    FLOWERS = "white-flowers"
    ABOVE_FLOWER = "nodes-above-white-flower"
    FIRST_SQUARE = "first-square"
    FIRST_BLOOM = "first-bloom"


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen of one field on one day; None where nobody looked.

    Parameters
    ----------
    on : date
        The day.
    true_leaves, nodes : float or None
        Mean true leaves, or main-stem nodes above the cotyledons, of a plant. [count]
    plants, pinhead : int or None
        Plants looked at, and those of them with a square, pinhead or larger. [count]
    squaring_branches : float or None
        Mean fruiting branches with a square, of a plant. [count]
    bloom : bool or None
        Whether white flowers stood in the field.
    nawf : float or None
        Mean nodes above the uppermost first-position white flower. [count]
    walked : bool
        Whether it comes from the plants of a walk.

    Raises
    ------
    CropDateError
        If more plants have a pinhead than were looked at, or only one of the two is given.
    """

    on: date
    true_leaves: float | None = None
    nodes: float | None = None
    plants: int | None = None
    pinhead: int | None = None
    squaring_branches: float | None = None
    bloom: bool | None = None
    nawf: float | None = None
    walked: bool = False

    def __post_init__(self) -> None:
        if (self.plants is None) != (self.pinhead is None):
            raise CropDateError(
                f"plants looked at and plants with a pinhead go together on {self.on}."
            )
        if self.plants is not None and not 0 <= (self.pinhead or 0) <= self.plants:
            raise CropDateError(
                f"plants with a pinhead must be from 0 to the {self.plants} looked at"
                f" on {self.on}, got {self.pinhead}."
            )

    @property
    def tells(self) -> bool:
        """Whether anything was looked for."""
        counts = (self.true_leaves, self.nodes, self.plants, self.squaring_branches, self.nawf)
        return self.bloom is not None or any(count is not None for count in counts)

    @property
    def flowers(self) -> bool:
        """Whether white flowers were seen, also where only nodes above them were counted."""
        return bool(self.bloom) or self.nawf is not None

    @property
    def share(self) -> float | None:
        """Share of plants with a pinhead; None where nobody looked. [fraction]"""
        return None if not self.plants or self.pinhead is None else self.pinhead / self.plants


def of_stand(seen: Iterable[Seen], planted: date, *, again: bool) -> tuple[Seen, ...]:
    """Give what was seen of the stand that grows now.

    Parameters
    ----------
    seen : iterable of Seen
        All that was seen of a field.
    planted : date
        The day on which the stand was planted.
    again : bool
        Whether an earlier stand was planted over.

    Returns
    -------
    tuple of Seen
        Without looks at a stand that was planted over, and without other seasons. A look
        shortly before the only planting stays: it can't be true, which is told.
    """
    if again:  # on the day itself the stand before still stood
        return tuple(each for each in seen if each.on > planted)
    first = planted - timedelta(days=_SAME_SEASON)
    return tuple(each for each in seen if each.on >= first)


def by_day(seen: Iterable[Seen]) -> tuple[Seen, ...]:
    """Take what was seen on one day together, such as a note and a walk.

    Parameters
    ----------
    seen : iterable of Seen
        In any order.

    Returns
    -------
    tuple of Seen
        By day, one each: plants and pinheads are added up, other counts are means, and
        white flowers seen by anyone stand in the field.
    """
    ordered = sorted(seen, key=lambda one: one.on)
    days = (list(looks) for _, looks in groupby(ordered, key=lambda one: one.on))
    return tuple(_together(looks) if len(looks) > 1 else looks[0] for looks in days)


def _together(looks: list[Seen]) -> Seen:
    plants = [(each.plants, each.pinhead) for each in looks if each.plants is not None]
    flowers = [each.bloom for each in looks if each.bloom is not None]
    return Seen(
        looks[0].on,
        true_leaves=_mean(each.true_leaves for each in looks),
        nodes=_mean(each.nodes for each in looks),
        plants=sum(count for count, _ in plants) if plants else None,
        pinhead=sum(count or 0 for _, count in plants) if plants else None,
        squaring_branches=_mean(each.squaring_branches for each in looks),
        bloom=any(flowers) if flowers else None,
        nawf=_mean(each.nawf for each in looks),
        walked=all(each.walked for each in looks),
    )


def _mean(counts: Iterable[float | None]) -> float | None:
    known = [count for count in counts if count is not None]
    return sum(known) / len(known) if known else None


@dataclass(frozen=True, slots=True)
class SetAside:
    """Something seen that can't be true beside something that holds before it."""

    sign: Sign
    on: date
    by: Sign
    by_on: date


@dataclass(frozen=True, slots=True)
class Flowers:
    """What flowers tell of first bloom, where first square was given and first bloom was not.

    Parameters
    ----------
    on : date or None
        The first day on which they were seen: it stands for first bloom.
    left_out : tuple of SetAside
        Looks that saw flowers and can't be true beside something that holds before them.
    """

    on: date | None = None
    left_out: tuple[SetAside, ...] = ()


def flowers_by(on: date, seen: Iterable[Seen], squared: date) -> Flowers:
    """Tell since when white flowers are known, by the day of first square and what was seen.

    Parameters
    ----------
    on : date
        The day; what was seen later is not looked at.
    seen : iterable of Seen
        What was seen of the stand, in any order.
    squared : date
        The last day on which first square may have been: flowers come after it.

    Returns
    -------
    Flowers
        As for the crop's clock, what was given holds before what was seen, and flowers that
        were seen hold before a later look that found none; those that came too soon after
        first square are left out.
    """
    looks = [each for each in by_day(seen) if each.on <= on and each.flowers]
    least = squared + timedelta(days=SOON_FOR_FLOWERS)
    signs = [
        (Sign.FLOWERS if each.bloom else Sign.ABOVE_FLOWER, each.on)
        for each in looks
        if each.on < least
    ]
    aside = tuple(SetAside(sign, day, Sign.FIRST_SQUARE, squared) for sign, day in signs)
    return Flowers(min((each.on for each in looks if each.on >= least), default=None), aside)


@dataclass(frozen=True, slots=True)
class Given:
    """Days that somebody gave outright.

    Parameters
    ----------
    first_square : (date, date) or None
        The first and the last day that it may have been.
    bloom : date or None
        The day of first bloom.
    bloom_to_come : date or None
        First bloom where it was given as a day after the one asked for: it is known, and
        tells nothing of the days before.
    """

    first_square: tuple[date, date] | None = None
    bloom: date | None = None
    bloom_to_come: date | None = None


def given_by(on: date, first_square: tuple[date, date] | None, bloom: date | None) -> Given:
    """Give what was given outright, as it stands on a day.

    Parameters
    ----------
    on : date
        The day.
    first_square : (date, date) or None
        The first and the last day that it may have been.
    bloom : date or None
        The day of first bloom.

    Returns
    -------
    Given
        With a bloom that comes after the day apart.
    """
    if bloom is not None and bloom > on:
        return Given(first_square, bloom_to_come=bloom)
    return Given(first_square, bloom)
