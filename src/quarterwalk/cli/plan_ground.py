"""What each plan costs on the ground: in the fields given, or in a square field."""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass
from datetime import date

from quarterwalk.cli.ground import asked_for, chosen_fields, laid_out, size_notices
from quarterwalk.cli.plan_chosen import Chosen
from quarterwalk.errors import UsageError
from quarterwalk.field import Layout
from quarterwalk.field import Plan as Loops
from quarterwalk.guideline import load_routine
from quarterwalk.plan import Cost, Way, cheapest, cost_of
from quarterwalk.plan.minutes import square_field_metres
from quarterwalk.walk import QUADRANTS

USUAL_ACRES = 60.0
"""Size of the square field that stands for all where none is given. [acre]"""


@dataclass(frozen=True, slots=True)
class Ground:
    """One field and what each plan costs there.

    Parameters
    ----------
    name : str
        The field's name; empty for the square field.
    acres : float
        Its size. [acre]
    way : Way
        How long its loops are.
    costs : tuple of Cost
        Of each plan, in the order of the plans.
    """

    name: str
    acres: float
    way: Way
    costs: tuple[Cost, ...]

    @property
    def picked(self) -> Cost | None:
        """The plan that takes the fewest minutes; None where all of it is best walked."""
        return cheapest(self.costs)


def chosen_ground(options: argparse.Namespace, chosen: Chosen) -> list[Ground]:
    """Work out the cost of each plan in each field.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk plan`` or ``quarterwalk card``.
    chosen : Chosen
        The plans.

    Returns
    -------
    list of Ground
        In the order of the fields; one square field where no fields are given.
    """
    refuse_stray_ground(options)
    if options.fields is None:
        return [_square(options.acres or USUAL_ACRES, chosen)]
    fields = asked_for(chosen_fields(options.fields), options.field)
    on = options.date or date.today()  # noqa: DTZ011 - the day on the scout's own calendar
    each = load_routine().plants_a_stop
    tours = laid_out(fields, on, Loops((sum(_designs(chosen)[0]),), each))
    for notice in size_notices(tours, "quarterwalk quarters --out DIR"):
        print(notice, file=sys.stderr)
    by_design = {loops: laid_out(fields, on, Loops(loops, each)) for loops in _designs(chosen)}
    return [
        _ground(
            tour,
            {
                loops: tuple(loop.metres for loop in layouts[number].loops)
                for loops, layouts in by_design.items()
            },
            chosen,
        )
        for number, tour in enumerate(tours)
    ]


def refuse_stray_ground(options: argparse.Namespace) -> None:
    """Refuse options about fields that do not go together.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk plan`` or ``quarterwalk card``.

    Raises
    ------
    UsageError
        If a field is named without a file, or a size is given beside one.
    """
    if options.fields is None and options.field:
        raise UsageError("--field goes with --fields, the file that has the field.")
    if options.fields is not None and options.acres is not None:
        raise UsageError("--acres is for a square field; --fields has fields of their own size.")


def _designs(chosen: Chosen) -> list[tuple[int, ...]]:
    return [each.plan.loops for each in chosen.plans]


def _square(acres: float, chosen: Chosen) -> Ground:
    quarters = len(QUADRANTS)
    loops = {
        design: tuple(square_field_metres(acres, quarters * stops) for stops in design)
        for design in _designs(chosen)
    }
    tour = square_field_metres(acres, quarters * sum(_designs(chosen)[0]))
    return _costed("", acres, Way(loops, tour), chosen)


def _ground(
    tour: Layout, loops: dict[tuple[int, ...], tuple[float, ...]], chosen: Chosen
) -> Ground:
    way = Way(loops, tour.loops[0].metres)
    return _costed(tour.field.name, tour.acres, way, chosen)


def _costed(name: str, acres: float, way: Way, chosen: Chosen) -> Ground:
    return Ground(
        name,
        acres,
        way,
        tuple(
            cost_of(each, way, chosen.week, chosen.squares_a_plant, chosen.pace)
            for each in chosen.plans
        ),
    )
