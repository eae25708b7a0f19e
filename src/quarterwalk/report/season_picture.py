"""The picture of a season, in the sizes that its faces need."""

from __future__ import annotations

from quarterwalk.picture import Theme
from quarterwalk.picture.drawing import Telling
from quarterwalk.picture.season import season_picture
from quarterwalk.report.season_report import SeasonReport
from quarterwalk.words import phrase, spoken_in


def picture_of(report: SeasonReport, theme: Theme, width: int, id: str) -> str:
    """Draw a season: its heat, its events, its walks.

    Parameters
    ----------
    report : SeasonReport
        The season.
    theme : Theme
        Where it will be seen.
    width : int
        [px]
    id : str
        Begins every id inside.

    Returns
    -------
    str
        SVG.
    """
    with spoken_in(report.language):
        told = Telling(phrase("The season of {field}", field=report.field), report.headline)
        return season_picture(report.drawn, told=told, theme=theme, id=id, width=width)
