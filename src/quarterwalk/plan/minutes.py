"""What a walk costs in minutes: the way and the counting, loop by loop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from quarterwalk.guideline import load_routine
from quarterwalk.plan.course import Course
from quarterwalk.plan.numbers import number
from quarterwalk.units import HECTARE_M2, HECTARES_PER_ACRE


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast a scout walks and counts.

    Parameters
    ----------
    seconds_with_squares, seconds_insects : float
        For a plant with its squares, and for its terminal alone. [seconds]
    metres_a_minute : float
        Between the stops. [m/min]

    Raises
    ------
    ValueError
        If one of them is not above 0.
    """

    seconds_with_squares: float = number("minutes", "seconds_with_squares")
    seconds_insects: float = number("minutes", "seconds_insects")
    metres_a_minute: float = float(load_routine().walking_pace)

    def __post_init__(self) -> None:
        given = (self.seconds_with_squares, self.seconds_insects, self.metres_a_minute)
        if not all(0 < each < math.inf for each in given):
            raise ValueError(f"seconds and metres must be above 0, got {self}.")


USUAL_PACE = Pace()
"""What is taken where a scout has not said otherwise."""


def minutes_by_look(
    course: Course, metres: Sequence[float], pace: Pace = USUAL_PACE
) -> tuple[float, ...]:
    """Give the minutes spent by the end of each loop.

    Parameters
    ----------
    course : Course
        The walk.
    metres : sequence of float, length loops
        Length of each loop, from the entry and back. [m]
    pace : Pace
        Of the scout.

    Returns
    -------
    tuple of float, length loops
        [minutes]

    Raises
    ------
    ValueError
        If there is not one length for each loop.
    """
    each = load_routine().plants_a_stop
    spent = []
    for part, way in zip(course.stretches, metres, strict=True):
        insects_alone = each * part.stops - part.square_plants
        counting = (
            part.square_plants * pace.seconds_with_squares + insects_alone * pace.seconds_insects
        )
        spent.append(way / pace.metres_a_minute + counting / 60.0)
    return tuple(accumulate(spent))


def full_walk_minutes(course: Course, metres: float, pace: Pace = USUAL_PACE) -> float:
    """Give the minutes of a full walk in one tour.

    Parameters
    ----------
    course : Course
        The same walk in loops: it has the same plants.
    metres : float
        Length of one tour through all stops. [m]
    pace : Pace
        Of the scout.

    Returns
    -------
    float
        [minutes]
    """
    no_way = minutes_by_look(course, [0.0] * len(course.stretches), pace)[-1]
    return no_way + metres / pace.metres_a_minute


def square_field_metres(acres: float, stops: int) -> float:
    """Give the length of a loop in a square field whose stops lie at random.

    Parameters
    ----------
    acres : float
        Size of the field. [acre]
    stops : int
        Stops of the loop. [count]

    Returns
    -------
    float
        With the way in and back. [m]

    References
    ----------
    .. [1] D. S. Johnson, L. A. McGeoch and E. E. Rothberg, "Asymptotic experimental analysis
       for the Held-Karp traveling salesman bound," Proc. 7th ACM-SIAM Symposium on Discrete
       Algorithms, 1996 (from memory).
    """
    area = acres * float(HECTARES_PER_ACRE * HECTARE_M2)
    tour = number("minutes", "tour_factor") * math.sqrt(stops * area)
    few = 1.0 + number("minutes", "tour_few") / stops
    return tour * few + number("minutes", "way_in") * math.sqrt(area)


def square_field_loops(acres: float, course: Course) -> tuple[float, ...]:
    """Give the lengths of all loops of a walk in a square field. [m]"""
    return tuple(square_field_metres(acres, part.stops) for part in course.stretches)
