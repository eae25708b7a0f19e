"""The picture of a season, in the sizes that its faces need."""

from __future__ import annotations

from quarterwalk.picture import Theme
from quarterwalk.picture.drawing import Telling
from quarterwalk.picture.season import season_picture
from quarterwalk.picture.season_heard import season_heard
from quarterwalk.picture.season_key import season_key
from quarterwalk.report.season_report import SeasonReport
from quarterwalk.words import phrase, spoken_in


def picture_of(
    report: SeasonReport, theme: Theme, width: int, id: str, *, flat: bool = False
) -> str:
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
    flat : bool
        Whether the heat is drawn low, to save paper.

    Returns
    -------
    str
        SVG.
    """
    with spoken_in(report.language):
        desc = f"{report.headline} {season_heard(report.drawn)}"
        told = Telling(phrase("The season of {field}", field=report.field), desc)
        return season_picture(report.drawn, told=told, theme=theme, id=id, width=width, flat=flat)


def key_of(report: SeasonReport) -> tuple[str, ...]:
    """Say how the picture of a season is read.

    Parameters
    ----------
    report : SeasonReport
        The season.

    Returns
    -------
    tuple of str
        A sentence or two, only of what is drawn.
    """
    with spoken_in(report.language):
        return season_key(report.drawn)
