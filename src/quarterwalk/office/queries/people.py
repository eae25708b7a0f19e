"""Who has a part in a district."""

from __future__ import annotations

from quarterwalk.office.models import District, Membership


def parts_of(district: District) -> list[Membership]:
    """List the parts of a district, by name.

    Parameters
    ----------
    district : District
        Which.

    Returns
    -------
    list of Membership
        With person and grower.
    """
    parts = Membership.objects.filter(district=district)
    return list(parts.select_related("person", "grower", "district").order_by("person__name"))
