"""From a field on a day to its walk card: the bytes that a phone takes along."""

from __future__ import annotations

import builtins
import hashlib
import json
from dataclasses import dataclass
from typing import Any

from quarterwalk.call import check_line
from quarterwalk.call.figures import plain_number
from quarterwalk.call.verdict import verdict_words
from quarterwalk.card.about import CardFor
from quarterwalk.card.check import check_card
from quarterwalk.card.limits import Judged, limits
from quarterwalk.card.places import acres_of_layout, places_of
from quarterwalk.card.sketch import sketch_of
from quarterwalk.card.squares import squares_by_week
from quarterwalk.card.stop_plans import stop_plans
from quarterwalk.card.sun import sun_of
from quarterwalk.card.texts import season_words, texts, why_not
from quarterwalk.card.weeks import SeasonDays, Span, season_days
from quarterwalk.guideline import Guideline
from quarterwalk.plan.canonical import canonical
from quarterwalk.words import spoken_in

Json = dict[str, Any]

FORMAT = 1
"""The number of the card's format."""


@dataclass(frozen=True, slots=True)
class Card:
    """A walk card: all that a phone needs to hold one walk of one field.

    Parameters
    ----------
    bytes : bytes
        Its JSON, with sorted keys and without idle spaces, in UTF-8.
    walkable : bool
        Whether the phone can hold the walk.
    why_not : str
        Why it can't; empty where it can.
    """

    bytes: builtins.bytes
    walkable: bool
    why_not: str

    @property
    def hash(self) -> str:
        """SHA-256 of the bytes. [64 hex digits]"""
        return card_hash(self.bytes)


def card_hash(content: bytes) -> str:
    """Give the name under which a card is asked for.

    Parameters
    ----------
    content : bytes
        A card's bytes.

    Returns
    -------
    str
        SHA-256. [64 hex digits]
    """
    return hashlib.sha256(content).hexdigest()


def make_card(about: CardFor) -> Card:
    """Make the card that a scout takes along: where to stop, what to count, what it comes to.

    Parameters
    ----------
    about : CardFor
        The field on its day, with the rule that its walk will be judged by.

    Returns
    -------
    Card
        The same bytes for the same input: the time of making is not in them.

    Raises
    ------
    LineOutsideRange
        If the chosen line lies outside the published range.
    CardFault
        If something does not fit the card's format, such as the field's id.
    """
    if about.guideline is not None and about.line is not None:
        check_line(about.guideline, about.line)
    with spoken_in(about.language):
        reason = why_not(about)
        content = {**_head(about, reason), **places_of(about.layout), **_rules(about)}
        sun = sun_of(about.layout, about.zone)
    if sun is not None:
        content["sun"] = sun
    made = canonical(content)
    check_card(json.loads(made))
    return Card(made, not reason, reason)


def _head(about: CardFor, reason: str) -> Json:
    """Say which field it is, and what is known of it."""
    field = about.layout.field
    closed, treated = about.closed_until, about.dates.treated if about.dates else ()
    return {
        "v": FORMAT,
        "field": {
            "id": about.id,
            "name": field.name,
            "grower": field.grower,
            "farm": field.farm,
            "acres": acres_of_layout(about.layout),
        },
        "on": about.on.isoformat(),
        "language": about.language,
        "method": about.method.value,
        "sites": "all",
        "walkable": not reason,
        "why_not": reason,
        "guideline": None if about.guideline is None else _named(about.guideline),
        "closed_until": None if closed is None else closed.isoformat(timespec="seconds"),
        "treated": [day.isoformat() for day in sorted(set(treated))],
        "last": _last(about),
        "sketch": sketch_of(about.layout, about.language),
    }


def _named(guideline: Guideline) -> Json:
    return {
        "name": guideline.name,
        "edition": guideline.edition,
        "hash": guideline.hash,
        "own": guideline.own,
        "title": guideline.title,
    }


def _last(about: CardFor) -> Json | None:
    last = about.last
    if last is None:
        return None
    return {
        "on": last.on.isoformat(),
        "verdict": last.verdict.value,
        "words": verdict_words(last.verdict),
    }


def _rules(about: CardFor) -> Json:
    """Say what the walk is held against, and when."""
    judged = None if about.followed is None else Judged(about.followed, about.line)
    days = season_days(about)
    whole = days.whole
    squares = squares_by_week(about.layout, about.guideline)
    plans = stop_plans(about, [week for week, _ in days.weeks])
    return {
        **({"plans": plans} if plans else {}),
        "weeks": [] if judged is None else _weeks(days, judged),
        "treat_days": [] if judged is None else [_span(span) for span in days.treat],
        "season": {
            **({"from": None, "to": None} if whole is None else _span(whole)),
            "words": season_words(about),
        },
        "squares": [
            {
                "week": each.week,
                "plants_a_quarter": each.plants,
                "plants_a_stop": list(each.stops),
            }
            for each in squares
        ],
        "limits": limits(judged),
        "texts": texts(about, squares),
    }


def _weeks(days: SeasonDays, judged: Judged) -> list[Json]:
    return [
        {"week": week, **_span(span), "line": plain_number(judged.line(week)), "floor": floor}
        for week, span in days.weeks
        for floor in [_share(judged, week)]
    ]


def _share(judged: Judged, week: int | None) -> int | float | None:
    floor = judged.floor(week)
    return None if floor is None else plain_number(floor)


def _span(span: Span) -> Json:
    return {"from": span.first.isoformat(), "to": span.last.isoformat()}
