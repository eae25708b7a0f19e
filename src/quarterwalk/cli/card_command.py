"""``quarterwalk card``: the card "May I stop yet?", to print."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from quarterwalk.cli.folder import folder_for, write
from quarterwalk.cli.plan_chosen import Chosen, chosen_plans
from quarterwalk.cli.plan_ground import Ground, chosen_ground, refuse_stray_ground
from quarterwalk.cli.plan_told import DESIGN_WORDS
from quarterwalk.cli.reports import PAPERS, no_pdf, pdfs_can_be_made
from quarterwalk.cli.screen import end_progress, say, tell_done
from quarterwalk.files.file_names import file_names
from quarterwalk.plan import Cost
from quarterwalk.report.pdf import Paper
from quarterwalk.report.stop_card import StopCard, stop_card
from quarterwalk.report.stop_card_back import Place
from quarterwalk.report.stop_card_page import stop_card_page
from quarterwalk.report.stop_card_pdf import stop_card_pdf


def run(options: argparse.Namespace) -> None:
    """Find the plan of each field, and write its card."""
    refuse_stray_ground(options)
    chosen = chosen_plans(options)
    ground = chosen_ground(options, chosen)
    picked = [(each, _plan_of(each, options)) for each in ground]
    for each, cost in picked:
        if cost is None:
            say(
                f"{each.name or 'A square field'}, {each.acres:.0f} acres: walk all 100, no plan"
                " saves minutes there. --loops 2+3 makes a card all the same."
            )
    cards = [
        (each, _card(each, cost, chosen, options)) for each, cost in picked if cost is not None
    ]
    if cards:
        _write(cards, options.out, PAPERS[options.paper], chosen.week)


def _plan_of(ground: Ground, options: argparse.Namespace) -> Cost | None:
    """Take the loops that were asked for, else those that take fewest minutes."""
    return ground.picked if options.loops is None else ground.costs[0]


def _card(ground: Ground, cost: Cost, chosen: Chosen, options: argparse.Namespace) -> StopCard:
    return stop_card(
        cost,
        chosen.guideline,
        chosen.week,
        square_plants=chosen.square_plants(cost.shelved.plan.loops),
        place=Place(ground.name, ground.acres, chosen.pace),
        on=options.date or date.today(),  # noqa: DTZ011 - the day on the scout's own calendar
        language=options.language,
    )


def _write(cards: Sequence[tuple[Ground, StopCard]], out: str, paper: Paper, week: int) -> None:
    """Write a page and a PDF of each card, and say what was written."""
    pdfs = pdfs_can_be_made()
    names = file_names(each.name or f"week {week}" for each, _ in cards)
    with folder_for(out) as folder:
        for number, ((_, card), name) in enumerate(zip(cards, names, strict=True), start=1):
            _write_one(card, folder, name, paper, pdf=pdfs)
            tell_done(number, len(cards), "cards")
    end_progress()
    for each, card in cards:
        loops = DESIGN_WORDS[card.plan.loops]
        say(f"{each.name or f'Week {week}'}: {loops}, plan {card.plan.short}.")
    what = "1 card" if len(cards) == 1 else f"{len(cards)} cards"
    how = "as a PDF and as a page to print" if pdfs else "as a page to print"
    say(f"{folder} holds {what}, {how}." + ("" if pdfs else f" {no_pdf()}"))


def _write_one(card: StopCard, folder: Path, name: str, paper: Paper, *, pdf: bool) -> None:
    write(folder / f"{name}-stop-card.html", stop_card_page(card, paper=paper))
    if pdf:
        write(folder / f"{name}-stop-card.pdf", stop_card_pdf(card, paper=paper))
