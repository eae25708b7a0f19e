"""``quarterwalk guidelines``: the shelf of regions, or one guideline with its sources."""

from __future__ import annotations

import argparse

from quarterwalk.cli.chosen import chosen_guideline
from quarterwalk.cli.screen import columns, print_json
from quarterwalk.guideline import (
    guideline_json,
    guideline_names,
    guideline_page,
    load_guideline,
    shelf_page,
)


def run(options: argparse.Namespace) -> None:
    """List all guidelines, or print one."""
    if options.name:
        guideline = chosen_guideline(options.name)
        if options.json:
            print_json(guideline_json(guideline))
        else:
            print(guideline_page(guideline, width=columns()))
    elif options.json:
        shelf = [guideline_json(load_guideline(name)) for name in guideline_names()]
        print_json({"guidelines": shelf})
    else:
        print(shelf_page())
        print()
        print("quarterwalk guidelines NAME prints one with its sources. None is the default:")
        print("published lines run from 10 to 45 per 100, so choose your own region's.")
