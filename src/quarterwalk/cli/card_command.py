"""``quarterwalk card``: the card "May I stop yet?", to print."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from quarterwalk.cli.folder import folder_for, refuse_taken, write
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
    found = find_cards(options)
    for ground, card in found:
        if card is None:
            say(
                f"{ground.name or 'A square field'}, {ground.acres:.0f} acres: walk all 100, no"
                " plan saves minutes there. --loops 2+3 makes a card all the same."
            )
    cards = [(ground, card) for ground, card in found if card is not None]
    if not cards:
        return
    with folder_for(options.out) as folder:
        write_cards(cards, folder, options)
    _say_written(cards, folder, options.week)


def find_cards(options: argparse.Namespace) -> list[tuple[Ground, StopCard | None]]:
    """Find the plan of each field, and make its card.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk card``.

    Returns
    -------
    list of (Ground, StopCard or None)
        None where no plan saves minutes.
    """
    refuse_stray_ground(options)
    chosen = chosen_plans(options)
    picked = [(each, _plan_of(each, options)) for each in chosen_ground(options, chosen)]
    return [
        (each, None if cost is None else _card(each, cost, chosen, options))
        for each, cost in picked
    ]


def write_cards(
    cards: Sequence[tuple[Ground, StopCard]], folder: Path, options: argparse.Namespace
) -> None:
    """Write a page of each card, and a PDF where PDFs can be made.

    Parameters
    ----------
    cards : sequence of (Ground, StopCard)
        The cards.
    folder : Path
        Where; it is there already. [folder name]
    options : argparse.Namespace
        Of ``quarterwalk card``.
    """
    names = file_names(each.name or f"week {options.week}" for each, _ in cards)
    paper, pdfs = PAPERS[options.paper], pdfs_can_be_made()
    ends = (".html", ".pdf") if pdfs else (".html",)
    refuse_taken(folder, [f"{name}-stop-card{end}" for name in names for end in ends])
    try:
        for number, ((_, card), name) in enumerate(zip(cards, names, strict=True), start=1):
            _write_one(card, folder, name, paper, pdf=pdfs)
            tell_done(number, len(cards), "cards")
    finally:
        end_progress()


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


def _say_written(cards: Sequence[tuple[Ground, StopCard]], folder: Path, week: int) -> None:
    pdfs = pdfs_can_be_made()
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
