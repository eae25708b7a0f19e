"""Hold, look sooner, treat: always in this order, the verdict filled."""

from __future__ import annotations

from quarterwalk.call import Verdict
from quarterwalk.call.verdict import verdict_words
from quarterwalk.picture.band import BAND_HEIGHT, band_frame, cells_of, other_place, verdict_place
from quarterwalk.picture.drawing import Telling, drawing
from quarterwalk.picture.mark import MARK_HEIGHT, MARK_WIDTH, outcome_mark
from quarterwalk.picture.theme import Theme
from quarterwalk.picture.why import no_call_word
from quarterwalk.words import phrase, spoken_in


def verdict_mark(verdict: Verdict, *, theme: Theme, id: str, language: str) -> str:
    """Draw what to do as a small mark: apart, touching, together, or two bare posts.

    Parameters
    ----------
    verdict : Verdict
        What to do.
    theme : Theme
        Where it will be seen.
    id : str
        Begins every id inside.
    language : str
        Of its title.

    Returns
    -------
    str
        SVG.
    """
    with spoken_in(language):
        told = Telling(verdict_words(verdict))
    inside = outcome_mark(verdict, MARK_WIDTH / 2, MARK_HEIGHT / 2)
    return drawing(inside, told, size=(MARK_WIDTH, MARK_HEIGHT), theme=theme, id=id)


def three_outcomes(
    verdict: Verdict,
    *,
    theme: Theme,
    width: int,
    id: str,
    language: str,
    provisional: bool = False,
    why: str = "",
) -> str:
    """Draw the three outcomes side by side, the verdict filled and its word large.

    Parameters
    ----------
    verdict : Verdict
        What to do. Where there is no call, a fourth place says why.
    theme : Theme
        Where it will be seen.
    width : int
        [px]
    id : str
        Begins every id inside.
    language : str
        Of its words.
    provisional : bool
        Whether something is lacking that could change it; then it is outlined, not filled.
    why : str
        Code of the first reason, where there is no call.

    Returns
    -------
    str
        SVG.
    """
    with spoken_in(language):
        cells = cells_of(verdict, width)
        note = _note(verdict, why, provisional=provisional)
        told = Telling(_title(verdict, note), _desc(verdict))
        inside = "".join(
            verdict_place(cell, note, provisional=provisional)
            if cell.outcome is verdict
            else other_place(cell)
            for cell in cells
        )
    return drawing(
        inside + band_frame(cells, width), told, size=(width, BAND_HEIGHT), theme=theme, id=id
    )


def _note(verdict: Verdict, why: str, *, provisional: bool) -> str:
    if verdict is Verdict.NONE:
        return no_call_word(why)
    return phrase("for now") if provisional else ""


def _title(verdict: Verdict, note: str) -> str:
    word = verdict_words(verdict)
    return phrase("{outcome}, {note}", outcome=word, note=note) if note else word


def _desc(verdict: Verdict) -> str:
    if verdict is Verdict.NONE:
        return phrase("There is no call: none of hold, look sooner and treat is marked.")
    return phrase(
        "Of hold, look sooner and treat, this is marked: {outcome}.", outcome=verdict_words(verdict)
    )
