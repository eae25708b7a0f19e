"""Fields that are too large for one walk."""

from __future__ import annotations

from quarterwalk.guideline import load_routine


def size_said(name: str, acres: float) -> str:
    """Say that a field is too large for one walk.

    Parameters
    ----------
    name : str
        The field's.
    acres : float
        How large it is. [acre]

    Returns
    -------
    str
        A sentence, as `quarterwalk quarters` prints it; empty where one walk does.
    """
    routine = load_routine()
    if acres <= routine.largest_field:
        return ""
    return (
        f"{name}: {acres:.0f} acres are too many for one walk of {routine.full_walk_plants} plants"
        f" (over {routine.largest_field}). Walk it as parts of at most {routine.largest_part}"
        " acres; quarterwalk quarters --out DIR writes such parts."
    )
