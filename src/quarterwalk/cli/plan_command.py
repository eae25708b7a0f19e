"""``quarterwalk plan``: when a walk may end early, and what that saves."""

from __future__ import annotations

import argparse

from quarterwalk.cli.plan_at import chosen_counts, standing
from quarterwalk.cli.plan_at_told import say_standing
from quarterwalk.cli.plan_chosen import chosen_plans
from quarterwalk.cli.plan_content import plan_content
from quarterwalk.cli.plan_ground import chosen_ground, refuse_stray_ground
from quarterwalk.cli.plan_own import own_walks, refuse_one_stream_for_two
from quarterwalk.cli.plan_own_told import say_own
from quarterwalk.cli.plan_told import say_minutes, say_plan, say_question
from quarterwalk.cli.screen import print_json, say


def run(options: argparse.Namespace) -> None:
    """Find the plans for a rule and a week, and tell what they say and cost."""
    refuse_stray_ground(options)
    refuse_one_stream_for_two(options)
    chosen = chosen_plans(options)
    counts = None if options.at is None else chosen_counts(options.at, chosen)
    ground = chosen_ground(options, chosen)
    walk = None if counts is None else standing(counts, ground)
    own = None if options.walks is None else own_walks(options.walks, ground[0].costs)
    if options.json:
        print_json(plan_content(chosen, ground, walk, own))
        return
    say_question(chosen)
    for cost in ground[0].costs:
        say_plan(cost)
    say_minutes(ground, chosen)
    if walk is not None:
        say_standing(walk, chosen, ground)
    if own is not None:
        say_own(own)
    say()
    say("quarterwalk card prints the card of it. The call on the counts still decides.")
