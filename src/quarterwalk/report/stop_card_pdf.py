"""The card as PDF: one sheet, front and back."""

from __future__ import annotations

from dataclasses import asdict

from quarterwalk.plan import Row
from quarterwalk.report.html import file_text
from quarterwalk.report.pdf import Paper
from quarterwalk.report.stop_card import CardLook, StopCard, low, runs
from quarterwalk.report.typeset import typeset


def stop_card_pdf(card: StopCard, *, paper: Paper = Paper.LETTER) -> bytes:
    """Set a card to print.

    Parameters
    ----------
    card : StopCard
        The card.
    paper : Paper
        What it is printed on.

    Returns
    -------
    bytes
        A PDF of two pages: front and back.

    Raises
    ------
    MissingExtra
        Where the report extra is not installed.
    """
    pictures = {f"mark-{i}": svg for i, svg in enumerate(card.marks) if svg}
    return typeset(
        file_text("stop_card.typ"),
        {
            "paper": paper.value,
            "field": card.field,
            "about": card.about,
            "looks": [_look(look) for look in card.looks],
            "highs": card.highs,
            "squares": card.squares,
            "rules": [
                {"mark": f"mark-{i}" if svg else "", "when": rule.when, "then": rule.then}
                for i, (rule, svg) in enumerate(zip(card.rules, card.marks, strict=True))
            ],
            "w": asdict(card.words),
            "back": asdict(card.back),
        },
        pictures,
        title=" ".join((card.words.title, *card.about, card.field)).strip(),
        on=card.on,
        language=card.language,
    )


def _look(look: CardLook) -> dict[str, object]:
    return {
        "title": look.title,
        "boxes": [asdict(box) for box in look.boxes],
        "rows": [_row(row) for row in look.rows],
        "insects_low": runs([low(row.insects_low) for row in look.rows]),
        "insects_high": runs([row.insects_high for row in look.rows]),
    }


def _row(row: Row) -> dict[str, int | None]:
    return {
        "squares": row.squares,
        "lost_low": low(row.lost_low),
        "sum_low": low(row.sum_low),
        "lost_high": row.lost_high,
    }
