"""The card as a web page to print, for those without the maker of PDFs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from quarterwalk.picture import Theme, style
from quarterwalk.report.html import file_text, font_face, policy
from quarterwalk.report.pdf import Paper
from quarterwalk.report.stop_card import CardLook, StopCard, low, runs, said
from quarterwalk.report.stop_card_back import CardBack

# Name of the paper in a style sheet, and the height that one side fills: a little less than
# in a PDF, since browsers differ. [mm]
_SIDES = {Paper.LETTER: ("letter", 256), Paper.A4: ("A4", 273)}

# Height of all rows of a look together, for one look and for each of two. [mm]
_ROWS = {Paper.LETTER: (124, 46), Paper.A4: (138, 52)}

# From how many rows on a number that holds for all of them is printed so large, with one
# figure and with two. [points]
_RUN_SIZES = ((8, (64, 50)), (4, (50, 44)), (2, (32, 32)), (1, (25, 25)))


def stop_card_page(card: StopCard, *, paper: Paper = Paper.LETTER) -> str:
    """Show a card as one web page that needs nothing beside it.

    Parameters
    ----------
    card : StopCard
        The card.
    paper : Paper
        What it is printed on.

    Returns
    -------
    str
        HTML without script; front and back print on one side of paper each.
    """
    title = escape(" ".join((card.words.title, *card.about, card.field)).strip())
    css = _styles(card, paper)
    return (
        f'<!DOCTYPE html>\n<html lang="{card.language}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy(css)}">\n'
        '<meta name="viewport" content="width=device-width">\n'
        f"<title>{title}</title>\n<style>{css}</style>\n</head>\n"
        f"<body>\n<main>\n{_front(card)}{_back(card)}</main>\n</body>\n</html>\n"
    )


def _styles(card: StopCard, paper: Paper) -> str:
    name, side = _SIDES[paper]
    high = _ROWS[paper][len(card.looks) - 1]
    box = high if len(card.looks) == 1 else high + 10  # no heads above it
    row = high / max(len(look.rows) for look in card.looks)
    return (
        f"{font_face()}\n@page{{size:{name};margin:9mm 12mm}}\n"
        f":root{{--side:{side}mm;--row:{row:.2f}mm;--high:{box}mm}}\n"
        + style(Theme.PRINT)
        + file_text("stop_card.css")
    )


def _front(card: StopCard) -> str:
    words = card.words
    about = "<br>".join(map(escape, card.about))
    field = f'<p class="field">{escape(card.field)}</p>' if card.field else ""
    looks = "".join(
        f"<h2>{escape(look.title)}</h2>"
        + (_limits(card, look) if card.squares else _alone(look, words.insects))
        for look in card.looks
    )
    foot = escape(" ".join(words.foot))
    return (
        f'<section class="side"><header><h1>{escape(words.title)}</h1><p>{about}</p></header>'
        f'{field}{looks}<p class="end">{escape(words.at_end)}</p>{_rules(card)}'
        f"<footer><p>{foot}</p>{_names(card)}</footer></section>\n"
    )


def _names(card: StopCard) -> str:
    return f"<p><b>{escape(' '.join(card.words.names))}</b></p>"


def _limits(card: StopCard, look: CardLook) -> str:
    words = card.words
    each = 2 if card.highs else 1
    groups = (
        f'<th rowspan="2">{escape(words.checked)}</th>'
        f'<th class="group" colspan="{each}">{escape(words.insects)}</th>'
        f'<th class="group" colspan="{each}">{escape(words.lost)}</th>'
        f'<th class="group">{escape(words.together)}</th>'
    )
    pair = f'<th class="group">{escape(words.low)}</th>'
    if card.highs:
        pair += f"<th>{escape(words.high)}</th>"
    heads = f'{pair}{pair}<th class="group">{escape(words.sum)}</th>'
    rows = "".join(f"<tr>{''.join(_cells(card, look, n))}</tr>" for n in range(len(look.rows)))
    return (
        '<div class="box" tabindex="0"><table class="limits">'
        f'<thead><tr class="groups">{groups}</tr><tr>{heads}</tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
    )


def _cells(card: StopCard, look: CardLook, number: int) -> Iterator[str]:
    row = look.rows[number]
    yield f'<th scope="row">{row.squares}</th>'
    yield from _run([low(each.insects_low) for each in look.rows], number, "run group")
    if card.highs:
        yield from _run([each.insects_high for each in look.rows], number, "run high")
    yield f'<td class="group">{said(low(row.lost_low))}</td>'
    if card.highs:
        yield f'<td class="high">{said(row.lost_high)}</td>'
    yield f'<td class="group">{said(low(row.sum_low))}</td>'


def _run(limits: Sequence[int | None], number: int, kind: str) -> Iterator[str]:
    """Give the cell of a run of equal numbers, at its first row."""
    at = 0
    for limit, rows in runs(limits):
        if at == number:
            size = next(sizes for least, sizes in _RUN_SIZES if rows >= least)
            points = size[len(said(limit)) > 1]
            yield f'<td class="{kind} pt{points}" rowspan="{rows}">{said(limit)}</td>'
        at += rows


def _alone(look: CardLook, insects: str) -> str:
    each = "".join(
        f'<div class="{"high" if box.high else "low"}"><b>{escape(box.head)}</b>'
        f"<strong>{escape(box.number)}</strong><em>{escape(box.then)}</em></div>"
        for box in look.boxes
    )
    return f'<p class="field">{escape(insects)}</p><div class="alone">{each}</div>'


def _rules(card: StopCard) -> str:
    told = "".join(
        f'<li><span class="mark">{_mark(card, number)}</span><span>{escape(rule.when)}'
        f" <b>{escape(rule.then)}</b></span></li>"
        for number, rule in enumerate(card.rules)
    )
    return f'<ul class="rules">{told}</ul>'


def _mark(card: StopCard, number: int) -> str:
    # the page's one style element has these rules, and its policy allows no other
    drawn = card.marks[number].replace(f"<style>{style(Theme.PRINT)}</style>", "")
    return drawn or escape(card.words.go_on)


def _back(card: StopCard) -> str:
    back: CardBack = card.back
    fields = len(back.heads) - 4
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in back.heads)
    rows = "".join(
        f"<tr>{''.join(f'<td>{escape(each)}</td>' for each in row)}</tr>" for row in back.rows
    )
    told = "".join(
        f"<h3>{escape(part.head)}</h3>{''.join(f'<p>{escape(s)}</p>' for s in part.sentences)}"
        for part in back.told
    )
    return (
        f'<section class="side back"><h2 class="title">{escape(back.title)}</h2>'
        '<div class="box" tabindex="0"><table class="rates">'
        f'<thead><tr><td colspan="{fields}"></td>'
        f'<th colspan="2">{escape(back.group)}</th><td colspan="2"></td></tr>'
        f"<tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{told}"
        f"<footer>{_names(card)}</footer></section>\n"
    )
