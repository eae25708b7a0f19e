"""Whether the season of a field's rule is over, so that no look is due, and what is in doubt."""

from __future__ import annotations

from quarterwalk.call.season import Outside, in_season
from quarterwalk.crop import Stage
from quarterwalk.office.models import FieldRow
from quarterwalk.office.translate import to_guideline


def season_is_over(row: FieldRow, stage: Stage | None) -> bool:
    """Tell whether every day that a field's dates allow lies past the season of its rule.

    Parameters
    ----------
    row : FieldRow
        The field.
    stage : Stage or None
        Where its crop stands.

    Returns
    -------
    bool
        False where it has no rule, or nothing tells where the crop stands; a bloom that is only
        likely ends nothing, and neither does one that the weather hardly allows.
    """
    guideline = to_guideline(row)
    if guideline is None or stage is None or in_doubt(stage):
        return False
    return in_season(stage, guideline).outside is Outside.OVER


def in_doubt(stage: Stage | None) -> bool:
    """Tell whether what was seen lies so far from the weather that something is wrong.

    Parameters
    ----------
    stage : Stage or None
        Where a crop stands.

    Returns
    -------
    bool
    """
    worked = None if stage is None else stage.worked_out
    odds = None if worked is None else worked.at_odds
    return odds is not None and odds.hardly
