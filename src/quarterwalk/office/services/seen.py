"""What people saw of a field's crop: noted, and struck where it was wrong."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from quarterwalk.crop import Seen
from quarterwalk.office import clock
from quarterwalk.office.models import FieldRow, Person, SeenRow
from quarterwalk.office.services import calls
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate import season_on
from quarterwalk.office.translate_season import from_seen, stand_planted

_SIGNS = ("true_leaves", "nodes", "pinhead", "squaring_branches", "bloom", "nawf")
"""What tells where the crop stands; plants alone tell nothing."""


@transaction.atomic
def note_seen(*, field: FieldRow, seen: Seen, by: Person) -> SeenRow:
    """Take over what somebody saw of a field's crop.

    Parameters
    ----------
    field : FieldRow
        The field.
    seen : Seen
        What they saw, and on which day.
    by : Person
        Who says so.

    Returns
    -------
    SeenRow

    Raises
    ------
    ServiceRefused
        If nothing was seen, it can't be, or the day is not in the season.
    """
    if all(getattr(seen, sign) is None for sign in _SIGNS):
        raise ServiceRefused("Fill in one of the counts at least.")
    if seen.nawf is not None and seen.bloom is False:
        raise ServiceRefused("Without a white flower there are no nodes above one.", "nawf")
    _refuse_day(field, seen.on)
    take_turn(field.district)
    row = SeenRow.objects.create(field=field, by=by, at=clock.now(), **from_seen(seen))
    calls.keep_for_look(field, seen.on)
    return row


def _refuse_day(field: FieldRow, on: date) -> None:
    if on > clock.today(field.district):
        raise ServiceRefused("This day is still to come.", "on")
    planted = stand_planted(season_on(field, on))
    if planted is not None and on <= planted:
        raise ServiceRefused(f"The crop was planted on {planted.isoformat()}.", "on")


@transaction.atomic
def strike_seen(*, seen: SeenRow, by: Person) -> None:
    """Strike what somebody noted: it counts nowhere, and stays to read.

    Parameters
    ----------
    seen : SeenRow
        Which.
    by : Person
        Who strikes it.
    """
    take_turn(seen.field.district)
    struck = SeenRow.objects.filter(pk=seen.pk, struck_at=None)
    if struck.update(struck_at=clock.now(), struck_by=by):
        calls.keep_for_look(seen.field, seen.on)
