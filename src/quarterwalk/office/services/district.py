"""What holds for all fields of a district."""

from __future__ import annotations

from quarterwalk.office.models import District
from quarterwalk.plan import Stopping


def set_stopping(*, district: District, stopping: Stopping | None) -> None:
    """Say for what the walks of a district may end early; calls that were made stay as they are.

    Parameters
    ----------
    district : District
        The district.
    stopping : Stopping or None
        None where every walk is finished.
    """
    chosen = "" if stopping is None else stopping.value
    District.objects.filter(pk=district.pk).update(stopping=chosen)
