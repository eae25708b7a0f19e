"""Seasons of invented fields, for the tests of their drawing."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from quarterwalk.call import Verdict
from quarterwalk.picture import Theme
from quarterwalk.picture.drawing import Telling
from quarterwalk.picture.season import SeasonDrawn, SeasonMark, SeasonWalk, season_picture
from quarterwalk.words import phrase, spoken_in

PLANTED = date(2026, 5, 14)
TODAY, LAST = date(2026, 7, 13), date(2026, 8, 24)
SQUARE = date(2026, 6, 20)


def after(days: int, since: date = PLANTED) -> date:
    """Give the day so many days after planting."""
    return since + timedelta(days)


def likely(name: str, first: int, day: int, last: int) -> SeasonMark:
    """Give an event that nobody saw, its days counted from planting."""
    return SeasonMark(name, after(day), (after(first), after(last)), seen=False)


def seen(name: str, on: date) -> SeasonMark:
    """Give an event that someone saw."""
    return SeasonMark(name, on, (on, on), seen=True)


def season(today: date = TODAY, last: date = LAST, **changed: object) -> SeasonDrawn:
    """Give a season of 18 heat units a day, other years 15 to 21."""
    before, ahead = (today - PLANTED).days + 1, (last - today).days
    days, to_come = np.arange(1.0, before + ahead + 1), np.arange(1.0, ahead + 1)
    told: dict[str, object] = {
        "heat": 18 * days[:before],
        "ahead": tuple(18 * before + each * to_come for each in (16, 18, 20)),
        "normal": tuple(each * days for each in (15, 18, 21)),
        "marks": (
            likely(phrase("emergence"), 5, 6, 8),
            seen(phrase("first square"), SQUARE),
            likely(phrase("first bloom"), 61, 64, 68),
            likely(phrase("cutout"), 80, 87, 96),
        ),
        "walks": tuple(
            SeasonWalk(after(4 * i, SQUARE), verdict)
            for i, verdict in enumerate((*Verdict, Verdict.HOLD, None))
        ),
        "next_look": (after(3, TODAY), after(4, TODAY)),
        "weeks": tuple((after(7 * i, SQUARE), after(7 * i + 6, SQUARE)) for i in range(4)),
        "treated": (date(2026, 7, 2),),
    }
    return SeasonDrawn(PLANTED, today, last, **(told | changed))  # type: ignore[arg-type]


def drawn_season(
    season: SeasonDrawn,
    *,
    theme: Theme = Theme.SCREEN,
    width: float = 760,
    id: str = "s",
    language: str = "en",
) -> str:
    """Draw a season."""
    with spoken_in(language):
        told = Telling(phrase("The season of one field"))
        return season_picture(season, told=told, theme=theme, id=id, width=width)


def seasons() -> dict[str, SeasonDrawn]:
    """Give seasons of every kind."""
    nowhere = np.full(61, np.nan)
    return {
        "whole": season(),
        "no other years": season(normal=None),
        "no walks": season(walks=(), next_look=None, treated=()),
        "planted today": season(today=PLANTED, walks=(), treated=()),
        "over": season(today=LAST, next_look=None),
        "one day": season(today=PLANTED, last=PLANTED),
        "very long": season(last=after(400)),
        "no weather": season(heat=nowhere, normal=None),
        "bare": season(marks=(), walks=(), next_look=None, weeks=(), treated=(), normal=None),
        "sprayed today": season(treated=(TODAY, after(1, TODAY), after(-1, TODAY))),
    }
