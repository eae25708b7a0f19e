"""How many plants are enough: stop plans, their exact error rates and their minutes.

A stop plan says at the end of a loop whether the walk may end. What it costs in errors is
worked out, never simulated; see the method page "When a walk may end early".
"""

from quarterwalk.plan.ahead import Ahead, ahead, expected_minutes
from quarterwalk.plan.choose import Cost, Way, cheapest, cost_of, nearest_row
from quarterwalk.plan.course import Course, Stretch, course_of, walked
from quarterwalk.plan.ended import Ended, Fault, Limit, ended_by
from quarterwalk.plan.figures import RowFigures, clear_field, excess_errors, figures_of
from quarterwalk.plan.make import THREE_LOOPS, TWO_LOOPS, Wanted, make_plan
from quarterwalk.plan.minutes import USUAL_PACE, Pace
from quarterwalk.plan.outcome import Outcomes, outcomes
from quarterwalk.plan.plan import (
    LEAST_DIGITS,
    Look,
    Plan,
    Row,
    Side,
    SquaresOn,
    Stopping,
    plan_from_json,
    plan_json,
)
from quarterwalk.plan.points import CRITERION, Criterion, Point, points_for
from quarterwalk.plan.question import Lost, Question, SquareBar, question_for
from quarterwalk.plan.shelf import (
    Shelved,
    shelved_for,
    shelved_from_json,
    shelved_json,
    shelved_named,
    shelved_plans,
)
from quarterwalk.plan.usual import squares_a_plant_in, squares_on_in
from quarterwalk.plan.worlds import NOMINAL, ROBUST, WORLDS, World

__all__ = [
    "CRITERION",
    "LEAST_DIGITS",
    "NOMINAL",
    "ROBUST",
    "THREE_LOOPS",
    "TWO_LOOPS",
    "USUAL_PACE",
    "WORLDS",
    "Ahead",
    "Cost",
    "Course",
    "Criterion",
    "Ended",
    "Fault",
    "Limit",
    "Look",
    "Lost",
    "Outcomes",
    "Pace",
    "Plan",
    "Point",
    "Question",
    "Row",
    "RowFigures",
    "Shelved",
    "Side",
    "SquareBar",
    "SquaresOn",
    "Stopping",
    "Stretch",
    "Wanted",
    "Way",
    "World",
    "ahead",
    "cheapest",
    "clear_field",
    "cost_of",
    "course_of",
    "ended_by",
    "excess_errors",
    "expected_minutes",
    "figures_of",
    "make_plan",
    "nearest_row",
    "outcomes",
    "plan_from_json",
    "plan_json",
    "points_for",
    "question_for",
    "shelved_for",
    "shelved_from_json",
    "shelved_json",
    "shelved_named",
    "shelved_plans",
    "squares_a_plant_in",
    "squares_on_in",
    "walked",
]
