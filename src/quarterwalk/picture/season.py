"""One field's season: heat units over other years, the crop's events, walks, what is next."""

from __future__ import annotations

from quarterwalk.picture.drawing import Telling, drawing
from quarterwalk.picture.ground import Box
from quarterwalk.picture.season_days import days_lane, month_lines
from quarterwalk.picture.season_drawn import SeasonDrawn, SeasonMark, SeasonWalk
from quarterwalk.picture.season_heat import HeatRoom, heat_axis, heat_dot, heat_lines
from quarterwalk.picture.season_heat_words import heat_words
from quarterwalk.picture.season_marks import marks_stair, planted_mark
from quarterwalk.picture.season_part import Part
from quarterwalk.picture.season_place import broken
from quarterwalk.picture.season_room import HEAD, SeasonRoom
from quarterwalk.picture.season_uprights import Uprights, uprights
from quarterwalk.picture.season_walks import walks_lane
from quarterwalk.picture.season_weeks import weeks_lane
from quarterwalk.picture.theme import Theme
from quarterwalk.words import phrase

__all__ = ["SeasonDrawn", "SeasonMark", "SeasonWalk", "season_picture"]

_SHARE, _LOWEST, _HIGHEST = 0.32, 190.0, 250.0  # of the heat: of the width, and limits [px]
_FLAT = 130.0  # of the heat where the drawing shares a sheet [px]
_GAP = 8.0  # between two lanes [px]


def season_picture(
    drawn: SeasonDrawn,
    *,
    told: Telling,
    theme: Theme,
    id: str,
    width: float,
    flat: bool = False,
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
    flat : bool
        Whether the heat is drawn low, to save paper.

    Returns
    -------
    str
        SVG, its words in the language in force.
    """
    room = SeasonRoom(drawn.planted, drawn.last, width)
    since = (
        phrase("Heat units since replanting, DD60")
        if drawn.replanted
        else phrase("Heat units since planting, DD60")
    )
    above = uprights(room, drawn, broken(since, HEAD, width))
    tall = min(max(_SHARE * width, _FLAT if flat else _LOWEST), _HIGHEST)
    heat = HeatRoom(drawn, room, Box(0, above.bottom + 4, width, above.bottom + 4 + tall))
    lanes = _lanes(drawn, room, above, heat.box.bottom)
    inside = _heat(heat, above, lanes) + lanes.drawn
    return drawing(inside, told, size=(width, lanes.bottom + 4), theme=theme, id=id)


def _heat(heat: HeatRoom, above: Uprights, lanes: Part) -> str:
    hairs, ticks = heat_axis(heat, above.stand)
    said = heat_words(heat, ticks, above.stand)
    held = (*said.held, *lanes.held)
    return (
        month_lines(heat.room, heat.box.top, lanes.bottom, held)
        + hairs
        + heat_lines(heat)
        + above.lines(lanes.bottom, held)
        + heat_dot(heat)
        + above.said
        + said.drawn
    )


def _lanes(drawn: SeasonDrawn, room: SeasonRoom, above: Uprights, top: float) -> Part:
    """Draw all lanes below the heat."""
    days = days_lane(room, top)
    events = planted_mark(drawn), *drawn.marks
    stair = marks_stair(room, events, above.stand, days.bottom + _GAP)
    weeks = weeks_lane(room, drawn, stair.bottom + _GAP)
    walks = walks_lane(room, drawn, weeks.bottom + _GAP)
    parts = days, stair, weeks, walks
    held = tuple(box for part in parts for box in part.held)
    return Part("".join(part.drawn for part in parts), walks.bottom, held)
