"""How to read a season's picture: what its marks mean, as far as they are drawn."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from quarterwalk.call import Verdict
from quarterwalk.call.verdict import verdict_words
from quarterwalk.picture.season_drawn import SeasonDrawn
from quarterwalk.picture.season_now import FEW
from quarterwalk.words import noted, phrase

_WALKS = {
    Verdict.HOLD: noted("open leaves apart = {call}"),
    Verdict.LOOK_SOONER: noted("half-filled leaves = {call}"),
    Verdict.TREAT: noted("one solid leaf = {call}"),
    Verdict.NONE: noted("two bare posts = {call}"),
}


def season_key(drawn: SeasonDrawn) -> tuple[str, ...]:
    """Say what the marks of a season's picture mean.

    Parameters
    ----------
    drawn : SeasonDrawn
        The season.

    Returns
    -------
    tuple of str
        A sentence on heat and events, and one on walks where there are any; in the
        language spoken.
    """
    told = [phrase("How to read it: {marks}.", marks="; ".join(_marks(drawn)))]
    walks = list(_walks(drawn))
    if walks:
        told.append(phrase("Walks: {marks}.", marks="; ".join(walks)))
    return tuple(told)


def _marks(drawn: SeasonDrawn) -> Iterator[str]:
    if drawn.known:
        yield phrase("heavy line = heat so far")
    if drawn.normal is not None:
        yield phrase("pale band = 8 in 10 of other years")
    ahead = len(drawn.ahead[0]) >= FEW and bool(np.isfinite(drawn.ahead[0]).any())
    if ahead:
        yield phrase("grey between dashed lines = what may come, 8 times in 10")
    if drawn.normal is not None or ahead:
        yield phrase("thin line = the middle")
    yield phrase("full dot = a known day")
    if any(not mark.seen and not mark.given for mark in drawn.marks):
        yield phrase("open box = the days it falls into 8 times in 10, its dot the likeliest")
    if any(mark.given and not mark.seen for mark in drawn.marks):
        yield phrase("box marked given = the days given")
    if any(last > drawn.today for _, last in drawn.weeks):
        yield phrase("open bar = a week of squaring to come")


def _walks(drawn: SeasonDrawn) -> Iterator[str]:
    verdicts = {walk.verdict for walk in drawn.walks if drawn.planted <= walk.on <= drawn.last}
    for verdict, meant in _WALKS.items():
        if verdict in verdicts:
            yield phrase(meant, call=verdict_words(verdict).lower())
    if None in verdicts:
        yield phrase("ring = not judged")
