"""``quarterwalk plan``: when a walk may end early, and what that saves."""

from __future__ import annotations

import argparse

from quarterwalk.cli.plan_chosen import chosen_plans
from quarterwalk.cli.plan_content import plan_content
from quarterwalk.cli.plan_ground import chosen_ground, refuse_stray_ground
from quarterwalk.cli.plan_told import say_minutes, say_plan, say_question
from quarterwalk.cli.screen import print_json, say


def run(options: argparse.Namespace) -> None:
    """Find the plans for a rule and a week, and tell what they say and cost."""
    refuse_stray_ground(options)
    chosen = chosen_plans(options)
    ground = chosen_ground(options, chosen)
    if options.json:
        print_json(plan_content(chosen, ground))
        return
    say_question(chosen)
    for cost in ground[0].costs:
        say_plan(cost)
    say_minutes(ground, chosen)
    say()
    say("quarterwalk card prints the card of it. The call on the counts still decides.")
