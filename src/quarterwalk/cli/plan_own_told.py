"""What one's own walks say of the plans, in plain words on the screen."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from quarterwalk.call.figures import listed
from quarterwalk.cli.plan_own import Own, TriedPlan
from quarterwalk.cli.plan_told import DESIGN_WORDS, ends_told
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.plan import CRITERION, WORLDS
from quarterwalk.plan.learn import EXPECTED_LOG_SPREAD, EXPECTED_MEDIAN, Estimate, Learned

# Numbers above this are told whole.
_WHOLE = 10

Written = Callable[[float], str]


def say_own(own: Own) -> None:
    """Say what own walks tell of plants, stops, squares and fields, and try the plans there.

    Parameters
    ----------
    own : Own
        What they say.
    """
    say()
    print(f"  {inked('What your own walks say', Ink.HEAD)}")
    read = "1 walk was" if own.walks == 1 else f"{own.walks} walks were"
    say(
        f"{read} read. Of each number: the likeliest, and in brackets the range that holds it"
        " 9 times in 10.",
        indent=4,
    )
    for sentence in _learnt(own):
        say(sentence, indent=4, hanging=6)
    say()
    print(f"  {inked('The plans, tried with the likeliest of these numbers', Ink.HEAD)}")
    for each in own.plans:
        _say_tried(each)
    say("No plan is changed by this.", indent=4)


def _learnt(own: Own) -> Iterator[str]:
    learned = own.learned
    ks = sorted({world.k for world in WORLDS})
    yield (
        f"How insects lie on the plants of a stop: k {_told(learned.k, _k)}. The smaller k is,"
        f" the more they sit together. Plans hold for {listed([_k(k) for k in ks])}."
        f" {_walks(learned.k)}"
    )
    stops = max(world.stop_cv for world in WORLDS)
    yield (
        f"How unlike stops of a quarter are: by {_told(learned.stop_cv, _percent)}. Plans hold"
        f" for 0 % and {_percent(stops)}. {_walks(learned.stop_cv)}{_by_stops(learned)}"
    )
    squares = max(world.rho for world in WORLDS)
    yield (
        "How alike the squares of a plant fare, from 0 (as chance has it) to 1 (all or none):"
        f" {_told(learned.rho, _two_places)}. Plans hold for 0 and {squares:g}."
        f" {_walks(learned.rho)}"
    )
    yield (
        f"Half of the fields have fewer insects than {_told(learned.median, _per_100)} per 100"
        f" plants. Plans take {_per_100(EXPECTED_MEDIAN)}. {_walks(learned.median)}"
    )
    yield (
        f"One field in six has {_told(learned.log_spread, _times)} times as many, or more."
        f" Plans take {_times(EXPECTED_LOG_SPREAD)}. {_walks(learned.log_spread)}"
    )


def _by_stops(learned: Learned) -> str:
    """Say what would tell of stops, where plants were told of and stops were not."""
    if learned.stop_cv.walks_used or not learned.k.walks_used:
        return ""
    return " It takes stop numbers; without them k takes in what stops do."


def _told(estimate: Estimate, written: Written) -> str:
    low, high = written(estimate.low), written(estimate.high)
    return f"{written(estimate.value)} ({low} to {high})"


def _walks(estimate: Estimate) -> str:
    used = estimate.walks_used
    if not used:
        return "No walk told this: it is what was expected before."
    return "Told by 1 walk." if used == 1 else f"Told by {used} walks."


def _k(value: float) -> str:
    return "at random" if math.isinf(value) else _two_figures(value)


def _percent(value: float) -> str:
    return f"{100 * value:.0f} %"


def _two_places(value: float) -> str:
    return f"{value:.2f}"


def _per_100(median: float) -> str:
    return _two_figures(100 * median)


def _two_figures(value: float) -> str:
    return f"{value:.0f}" if value > _WHOLE else f"{value:.2g}"


def _times(log_spread: float) -> str:
    """Give how many times the middle field's insects one field in six has, or more.

    One standard deviation over the middle of a normal distribution lies 1 in 6, nearly.
    """
    return f"{math.exp(log_spread):.1f}"


def _say_tried(plan: TriedPlan) -> None:
    tried, used = plan.tried, plan.cost.shelved.plan
    clear, near = tried.worst_clear, tried.worst_near
    say(
        f"{DESIGN_WORDS[used.loops].capitalize()}, plan {used.short}: in clear fields"
        f" {_points(clear)} more wrong answers in 100 walks than by full walks"
        f" {_limit(clear, CRITERION.clear)}, near the lines {_points(near)} more"
        f" {_limit(near, CRITERION.near)}. Plants checked: {tried.own_plants:.0f} on average on"
        f" fields like yours, {tried.plants:.0f} over the usual spread.",
        indent=4,
        hanging=6,
    )
    if plan.stays:
        say("To hold there too, its limits would stay as they are.", indent=6)
        return
    say(
        f"To hold there too, its limits would be others, with {plan.fitted_plants:.0f} plants on"
        " average over the usual spread:",
        indent=6,
    )
    for loop, row in enumerate(plan.fitted, start=1):
        ends = ends_told(used.question, row) or ["No walk ends."]
        say(f"After loop {loop}: {' '.join(ends)}", indent=8, hanging=10)


def _points(excess: float) -> str:
    return f"{max(0.0, excess):.1f}"


def _limit(excess: float, limit: float) -> str:
    return f"({'over the limit of' if excess > limit else 'limit'} {limit:g})"
