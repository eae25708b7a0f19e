"""What each part in a district may see and do on a page; `access` holds the door itself."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.office.models import Role


@dataclass(frozen=True, slots=True)
class May:
    """What somebody's pages offer.

    Parameters
    ----------
    lead : bool
        Rules, dates, people, the inbox.
    walk : bool
        Walks that are typed in or handed in, and phones.
    odds : bool
        Chances as odds; growers read clear, close, can't tell.
    """

    lead: bool = False
    walk: bool = False
    odds: bool = False


MAY = {
    Role.LEAD: May(lead=True, walk=True, odds=True),
    Role.SCOUT: May(walk=True, odds=True),
    Role.GROWER: May(),
}
"""By part."""


def may_as(role: str) -> May:
    """Say what a part may do.

    Parameters
    ----------
    role : str
        One of `Role`. [text]

    Returns
    -------
    May
    """
    return MAY[Role(role)]
