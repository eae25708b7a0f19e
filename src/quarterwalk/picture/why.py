"""Why there is no call, in a few words."""

from __future__ import annotations

from quarterwalk.words import phrase


def no_call_word(why: str) -> str:
    """Say in a few words why there is no call.

    Parameters
    ----------
    why : str
        Code of the reason.

    Returns
    -------
    str
    """
    said = {
        "before-squaring": phrase("too early"),
        "season-over": phrase("season over"),
        "bloom-date": phrase("bloom date needed"),
        "no-line-for-method": phrase("no line for this method"),
    }
    return said.get(why, phrase("no reading"))
