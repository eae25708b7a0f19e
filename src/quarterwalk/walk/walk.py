"""A walk: one look at one field."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quarterwalk.walk.check import PlantCheck, RecordError
from quarterwalk.walk.kinds import Method, Sites


@dataclass(frozen=True, slots=True)
class Walk:
    """One look at one field, by one scout or several.

    Parameters
    ----------
    field : str
        The field's name.
    date : date
        The day of the walk; of a walk in parts, the last.
    checks : tuple of PlantCheck
        The plants, in the order in which they were looked at; at least one.
    id : str
        The id that joins the parts of the walk; empty where field and day do.
    method : Method
        How insects were counted.
    sites : Sites
        Which first positions were looked at.
    plan : str
        Hash of the stop plan that ended the walk early; empty for none.

    Raises
    ------
    RecordError
        If the field has no name, there is no plant, one plant stands twice, the
        parts don't end on the walk's day, or a sweep sample has no sweeps.
    """

    field: str
    date: date
    checks: tuple[PlantCheck, ...]
    id: str = ""
    method: Method = Method.TERMINAL
    sites: Sites = Sites.ALL
    plan: str = ""

    def __post_init__(self) -> None:
        if not self.field.strip():
            raise RecordError("field", "a name", self.field)
        if not self.checks:
            raise RecordError("checks", "at least one plant check", self.checks)
        self._refuse_twins()
        days = {check.on or self.date for check in self.checks}
        if max(days) != self.date:
            raise RecordError("date", "the last day of the walk's parts", self.date)
        if len(days) > 1 and not self.id:
            raise RecordError("id", "given where a walk spans several days", self.id)
        if self.method is Method.SWEEP:
            for check in self.checks:
                if check.insects is not None and check.sweeps is None and not check.skipped:
                    raise RecordError("sweeps", "given with method sweep", check.sweeps)

    def _refuse_twins(self) -> None:
        """Refuse the same plant counted twice by the same scout."""
        seen = set()
        for check in self.checks:
            if check.place in seen:
                raise RecordError("plant", "unique within scout, quadrant and stop", check.place)
            seen.add(check.place)

    @property
    def scouts(self) -> tuple[str, ...]:
        """Who walked, in the order of their first plant."""
        return tuple(dict.fromkeys(c.scout for c in self.checks if c.scout))
