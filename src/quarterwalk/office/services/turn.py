"""One change of a district after another, wherever two at once could go wrong."""

from __future__ import annotations

from quarterwalk.office.models import District


def take_turn(district: District) -> District:
    """Wait until no other change of a district is half-way, and keep the next one waiting.

    Two batches of one walk, or two leads who each step down, would not see each other's
    rows. The turn ends with the transaction that it is taken in.

    Parameters
    ----------
    district : District
        Which.

    Returns
    -------
    District
        As it stands now.
    """
    # no_key: rows that only point to the district are written meanwhile
    return District.objects.select_for_update(no_key=True).get(pk=district.pk)
