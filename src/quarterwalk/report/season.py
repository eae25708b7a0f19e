"""From a season's clock to what is told of it: everything is worded here, once."""

from __future__ import annotations

from datetime import date

from quarterwalk.call.cautions import care_in_the_field, cautions_for, prevails
from quarterwalk.call.clock_told import far_station
from quarterwalk.call.figures import day_words
from quarterwalk.call.verdict import Verdict
from quarterwalk.crop import CropClock
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.report.names import plain
from quarterwalk.report.season_ahead import what_comes_next
from quarterwalk.report.season_days import days_note, days_of
from quarterwalk.report.season_doubts import doubts
from quarterwalk.report.season_drawn import season_drawn
from quarterwalk.report.season_footing import season_footing
from quarterwalk.report.season_report import SeasonDone, SeasonField, SeasonReport
from quarterwalk.report.season_settle import what_settles
from quarterwalk.report.season_stands import headline, stands
from quarterwalk.weather.choose import FieldWeather
from quarterwalk.words import phrase, phrase_as, spoken_in

# Below this an area is told with a decimal, so that it is not rounded by much. [acre]
_SMALL = 10

_NOTHING_DONE = SeasonDone()


def make_season(
    clock: CropClock,
    *,
    field: SeasonField,
    weather: FieldWeather,
    guideline: Guideline | None = None,
    done: SeasonDone = _NOTHING_DONE,
    language: str = "en",
) -> SeasonReport:
    """Word what scout and advisor are told of one field's season.

    Parameters
    ----------
    clock : CropClock
        Where the season stands.
    field : SeasonField
        Which field.
    weather : FieldWeather
        The weather that the clock ran on.
    guideline : Guideline or None
        The rule of the region; it says when this insect stops mattering.
    done : SeasonDone
        Walks, sprays and the next look.
    language : str
        One of `quarterwalk.words.LANGUAGES`.

    Returns
    -------
    SeasonReport
        Ready for any of its faces.

    Raises
    ------
    ValueError
        If there is no catalogue for the language.
    """
    with spoken_in(language):
        return SeasonReport(
            language=language,
            field=plain(field.name) or phrase("A field without a name"),
            grower=plain(field.grower),
            acres="" if field.acres is None else _acres(field.acres),
            day=phrase_as("date", "{day} {year}", day=day_words(clock.on), year=clock.on.year),
            headline=headline(clock),
            stands=(
                *stands(clock, replanted=field.replanted),
                *far_station(weather.distance_km),
            ),
            ahead=what_comes_next(clock, guideline, done),
            doubts=doubts(clock),
            settle=what_settles(clock, replanted=field.replanted),
            days=days_of(clock),
            days_note=days_note(clock),
            footing=season_footing(clock, weather, guideline=guideline, replanted=field.replanted),
            care=_care(clock.on, done.treated),
            on=clock.on,
            drawn=season_drawn(clock, done, replanted=field.replanted),
        )


def _acres(acres: float) -> str:
    return phrase("{acres} acres", acres=f"{acres:.{0 if acres >= _SMALL else 1}f}")


def _care(on: date, treated: tuple[date, ...]) -> tuple[str, ...]:
    heat, closed = care_in_the_field()
    first, last = load_routine().recently_treated
    if any(first <= (on - day).days <= last for day in treated):
        closed = cautions_for(Verdict.NONE, recently_treated=True)[0].text
    return heat, closed, prevails()
