"""One field's season: heat units over other years, the crop's events, walks, what is next."""

from __future__ import annotations

from quarterwalk.picture.drawing import Telling, drawing
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_days import DAYS_HEIGHT, days_lane, month_lines
from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonMark, SeasonWalk
from quarterwalk.picture.season_heat import HeatRoom, heat_axis, heat_dot, heat_lines
from quarterwalk.picture.season_heat_words import heat_words
from quarterwalk.picture.season_marks import marks_stair, planted_mark
from quarterwalk.picture.season_place import broken
from quarterwalk.picture.season_room import HEAD, SeasonRoom
from quarterwalk.picture.season_uprights import Uprights, uprights
from quarterwalk.picture.season_walks import walks_lane
from quarterwalk.picture.season_weeks import weeks_lane
from quarterwalk.picture.theme import Theme
from quarterwalk.words import phrase

__all__ = ["SeasonDrawn", "SeasonMark", "SeasonWalk", "season_picture"]

_SHARE, _LOWEST, _HIGHEST = 0.32, 190.0, 250.0  # of the heat: of the width, and limits [px]
_GAP = 8.0  # between two lanes [px]


def season_picture(
    drawn: SeasonDrawn, *, told: Telling, theme: Theme, id: str, width: float
) -> str:
    """Draw one field's season along one line of days.

    Heat units summed since planting stand above, upon those of other years; below the
    dates follow the crop's events, the weeks of squaring, and the walks. What was seen is
    full; what is only likely is open.

    Parameters
    ----------
    drawn : SeasonDrawn
        The season.
    told : Telling
        What it says to someone who hears it.
    theme : Theme
        Where it will be seen.
    id : str
        Begins every id inside.
    width : float
        Its height follows. [px]

    Returns
    -------
    str
        SVG, its words in the language in force.
    """
    room = SeasonRoom(drawn.planted, drawn.last, width)
    above = uprights(room, drawn, broken(phrase("Heat units since planting, DD60"), HEAD, width))
    tall = min(max(_SHARE * width, _LOWEST), _HIGHEST)
    heat = HeatRoom(drawn, room, Box(0, above.bottom + 4, width, above.bottom + 4 + tall))
    lanes, bottom = _lanes(drawn, room, above, heat.box.bottom)
    inside = _heat(heat, above, bottom) + lanes
    return drawing(inside, told, size=(width, bottom + 4), theme=theme, id=id)


def _heat(heat: HeatRoom, above: Uprights, bottom: float) -> str:
    hairs, ticks = heat_axis(heat, above.stand)
    return (
        month_lines(heat.room, heat.box.top, bottom)
        + hairs
        + heat_lines(heat)
        + above.lines(bottom)
        + heat_dot(heat)
        + above.said
        + heat_words(heat, ticks, above.stand)
    )


def _lanes(drawn: SeasonDrawn, room: SeasonRoom, above: Uprights, top: float) -> tuple[str, float]:
    """Draw all lanes below the heat, and tell where they end."""
    days, top = days_lane(room, top), top + DAYS_HEIGHT
    stair, top = marks_stair(room, (planted_mark(drawn.planted), *drawn.marks), top + _GAP)
    weeks, top = weeks_lane(room, drawn, top + _GAP)
    walks, top = walks_lane(room, drawn, above.stand, top + _GAP)
    return days + stair + weeks + walks, top
