"""Whether the season of a field is over, so that no look is due."""

from __future__ import annotations

from datetime import date, timedelta

from quarterwalk.call.clock_told import in_doubt
from quarterwalk.call.season import Outside, in_season
from quarterwalk.crop import SEASON_DAYS, Stage, StageName
from quarterwalk.guideline import load_routine
from quarterwalk.office.models import FieldRow
from quarterwalk.office.translate import season_on, to_guideline
from quarterwalk.office.translate_season import stand_planted


def season_is_over(row: FieldRow, stage: Stage | None, on: date) -> bool:
    """Tell whether every day that a field's dates allow lies past the season of its rule.

    Parameters
    ----------
    row : FieldRow
        The field.
    stage : Stage or None
        Where its crop stands.
    on : date
        The day.

    Returns
    -------
    bool
        False where it has no rule, or nothing tells where the crop stands; a bloom that is only
        likely ends nothing, and neither does one that the weather hardly allows. So many days
        after first square that no call is made without a day of bloom, it is over.
    """
    guideline = to_guideline(row)
    if guideline is None or in_doubt(stage):
        return False
    if stage is None:
        return past_all_days(row, on)
    return in_season(stage, guideline).outside in (Outside.OVER, Outside.BLOOM_UNKNOWN)


def past_all_days(row: FieldRow, on: date) -> bool:
    """Tell whether a crop was planted so long ago that nothing can be worked out any more.

    Parameters
    ----------
    row : FieldRow
        The field.
    on : date
        The day.

    Returns
    -------
    bool
        False where nobody gave the day of planting.
    """
    planted = stand_planted(season_on(row, on))
    return planted is not None and on >= planted + timedelta(days=SEASON_DAYS)


def lacks_bloom(stage: Stage | None) -> bool:
    """Tell whether first bloom must have come long ago, and nobody gave its day.

    Parameters
    ----------
    stage : Stage or None
        Where a crop stands.

    Returns
    -------
    bool
    """
    if stage is None or stage.name is not StageName.SQUARING or stage.bloom_known:
        return False
    return stage.days[0] > load_routine().no_call_after
