"""Raising what an older version wrote to the newest form.

Each step is a small function that stays here for ever: a journal that was once taken
can always be replayed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quarterwalk.journal.form import Content

VERSION = 1
"""The newest version of the entry format. [dimensionless]"""

STEPS: Mapping[int, Callable[[Content], Content]] = {}
"""By version, what makes of its entries those of the next."""


def raised(content: Content) -> Content:
    """Give an entry in the newest form.

    Parameters
    ----------
    content : mapping
        The entry as it was written. [JSON object]

    Returns
    -------
    mapping
        The same where it is of the newest version.

    Raises
    ------
    KeyError
        Where the version is not one that was ever written.
    """
    version = content.get("v")
    if type(version) is not int or not 1 <= version <= VERSION:
        raise KeyError(version)
    for step in range(version, VERSION):
        content = STEPS[step](content)
    return content
