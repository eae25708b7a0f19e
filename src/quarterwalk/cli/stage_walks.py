"""What walks tell of fields' seasons: what was seen on them, and what each called for."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from quarterwalk.call import CallOptions, Look
from quarterwalk.call.after_spray import look_after_spray
from quarterwalk.cli.chosen import chosen_guideline, chosen_walks
from quarterwalk.cli.clocks import Clocks, seen_on_walks
from quarterwalk.cli.judged import judge_walks
from quarterwalk.cli.standing import refuse_unplanted, standings_by
from quarterwalk.crop import Seen
from quarterwalk.files.plantings import PlantingFile
from quarterwalk.files.walk_table import WalkFile
from quarterwalk.guideline import Guideline
from quarterwalk.picture.season_drawn import SeasonWalk
from quarterwalk.reading import Reading, take_readings


@dataclass(frozen=True, slots=True, eq=False)
class Walked:
    """The walks of a file, and the rule that they are judged by.

    Parameters
    ----------
    walks : WalkFile or None
        None where no walks are given.
    readings : tuple of Reading
        What was counted on each.
    seen : mapping of str to tuple of Seen
        What their square checks tell, by field name.
    guideline : Guideline or None
        None where they are not to be judged.
    """

    walks: WalkFile | None = None
    readings: tuple[Reading, ...] = ()
    seen: Mapping[str, tuple[Seen, ...]] = field(default_factory=dict)
    guideline: Guideline | None = None

    def season(self, clocks: Clocks, name: str, on: date) -> tuple[list[SeasonWalk], Look | None]:
        """Give a field's walks of this season, with what they called for.

        Parameters
        ----------
        clocks : Clocks
            They tell where the field stood on the day of each walk.
        name : str
            The field.
        on : date
            Later walks are not looked at, nor those before planting.

        Returns
        -------
        walks : list of SeasonWalk
            By day.
        next_look : Look or None
            As a spray since the last of them asks for, or else as that one's call does; None
            where there is neither.

        Raises
        ------
        RefusedInput
            If a walk's day can't be judged for want of weather.
        """
        if self.walks is None:
            return [], None
        heads, planted = self.walks.table.heads, clocks.planted(name, on)
        days = {i: head.date for i, head in enumerate(heads) if head.field == name}
        which = sorted((i for i in days if planted <= days[i] <= on), key=lambda i: days[i])
        if not which:
            return [], None
        treated = [day for day in clocks.plantings[name].treated if day <= on]
        sprayed = look_after_spray(days[which[-1]], treated)
        if self.guideline is None:
            return [SeasonWalk(days[index], None) for index in which], sprayed
        standings = standings_by(clocks, self.walks, self.readings, which)
        chosen = [heads[i] for i in which], [self.readings[i] for i in which]
        judged = judge_walks(*chosen, standings, self.guideline, CallOptions())
        walks = [SeasonWalk(each.head.date, each.call.verdict) for each in judged]
        return walks, sprayed or judged[-1].call.next_look


def chosen_walked(options: argparse.Namespace, plantings: PlantingFile) -> Walked:
    """Read the walks and the rule, where they are given.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk stage``.
    plantings : PlantingFile
        Each walk's field must have a row there.

    Returns
    -------
    Walked
    """
    guideline = None if options.guideline is None else chosen_guideline(options.guideline)
    if options.walks is None:
        return Walked(guideline=guideline)
    walks = chosen_walks(options.walks)
    refuse_unplanted(walks, plantings)
    readings = tuple(take_readings(walks.table))
    return Walked(walks, readings, seen_on_walks(walks.table.heads, readings), guideline)
