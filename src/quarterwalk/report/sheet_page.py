"""The walk sheet as a web page to print, for those without the maker of PDFs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from quarterwalk.picture import Theme, style
from quarterwalk.report.html import file_text, font_face, policy
from quarterwalk.report.pdf import Paper
from quarterwalk.report.sheet import SheetContent
from quarterwalk.report.sheet_pages import Band, SheetPage, SheetStop
from quarterwalk.report.sheet_words import Column, QuarterNote
from quarterwalk.walk import QUADRANTS, Quadrant

# Name of the paper in a style sheet, the height that one side fills, and of a row: a little
# less than in a PDF, since browsers differ. [mm]
SIDES = {Paper.LETTER: ("letter", 260, 5.5), Paper.A4: ("A4", 277, 5.9)}
BOX = '<span class="box"></span>'
LINE = '<span class="line"></span>'


def sheet_page(content: SheetContent, *, paper: Paper = Paper.LETTER) -> str:
    """Show a walk sheet as one web page that needs nothing beside it.

    Parameters
    ----------
    content : SheetContent
        The sheet.
    paper : Paper
        What it is printed on.

    Returns
    -------
    str
        HTML without script, its font, pictures and styles inside; every page of the
        sheet prints on one side of paper.
    """
    title = escape(f"{content.words.kind}: {content.field}")
    css = _styles(paper)
    sides = "".join(_side(content, number) for number in range(len(content.pages)))
    return (
        f'<!DOCTYPE html>\n<html lang="{content.language}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy(css)}">\n'
        '<meta name="viewport" content="width=device-width">\n'
        f"<title>{title}</title>\n<style>{css}</style>\n</head>\n"
        f"<body>\n<main>\n{sides}</main>\n</body>\n</html>\n"
    )


def _styles(paper: Paper) -> str:
    name, height, row = SIDES[paper]
    return (
        f"{font_face()}\n@page{{size:{name};margin:7mm 10mm}}\n"
        f":root{{--side:{height}mm;--row:{row}mm}}\n" + style(Theme.PRINT) + file_text("sheet.css")
    )


def _side(content: SheetContent, number: int) -> str:
    page: SheetPage = content.pages[number]
    parts = [_first_head(content) if number == 0 else _later_head(content)]
    parts += [_band(content, band) for band in page.bands]
    if page.notes:
        parts.append(_notes(content))
    foot = f"<p>{escape(content.laid_out)}</p><p>{escape(page.foot)}</p>"
    return f'<section class="side">{"".join(parts)}<footer>{foot}</footer></section>\n'


def _first_head(content: SheetContent) -> str:
    words = content.words
    facts = "<br>".join(map(escape, content.facts))
    lines = _lines((words.date, words.scout, words.start, words.end))
    gate = (
        f'<div class="gate"><h2>{escape(words.gate)}</h2><div class="answers">'
        f"{_tick(words.no)}{_tick(words.yes)}"
        f'<span class="write">{escape(words.closed)}{LINE}</span>'
        f"<b>{escape(words.doubt)}</b></div></div>"
    )
    told = ((words.how_head, words.how), (words.care_head, words.care))
    beside = "".join(
        f"<h2>{escape(head)}</h2>" + "".join(f"<p>{escape(s)}</p>" for s in sentences)
        for head, sentences in told
    )
    # the page's one style element has these rules, and its policy allows no other
    sketch = content.sketch.replace(f"<style>{style(Theme.PRINT)}</style>", "")
    return (
        f'<header class="first"><div><p class="kind">{escape(words.kind)}</p>'
        f'<h1>{escape(content.field)}</h1></div><p class="facts">{facts}</p></header>'
        f'{lines}{gate}<p class="sun">{escape(content.sun)}</p>'
        f'<div class="sketch"><figure>{sketch}</figure><div>{beside}</div></div>'
    )


def _later_head(content: SheetContent) -> str:
    lines = _lines((content.words.date, content.words.scout))
    return f'<header class="later"><b>{escape(content.short_field)}</b>{lines}</header>'


def _lines(labels: Sequence[str]) -> str:
    each = "".join(f'<span class="write"><b>{escape(label)}</b>{LINE}</span>' for label in labels)
    return f'<div class="lines">{each}</div>'


def _tick(label: str) -> str:
    return f'<span class="tick">{BOX}{escape(label)}</span>'


def _band(content: SheetContent, band: Band) -> str:
    blocks = "".join(_block(content, stops) for stops in (band.left, band.right) if stops)
    closing = f'<p class="closing">{escape(band.closing)}</p>' if band.closing else ""
    return (
        f"<h2>{escape(band.title)} <small>{escape(band.way)}</small></h2>"
        f'<div class="blocks">{blocks}</div>{closing}'
    )


def _block(content: SheetContent, stops: Sequence[SheetStop]) -> str:
    words = content.words
    plant, *counts, note = words.columns
    widths = "".join(f'<col class="{name}">' for name in ("stop", *(c.name for c in words.columns)))
    return (
        f"<table><colgroup>{widths}</colgroup><thead><tr>"
        f'<th rowspan="2" scope="col">{escape(words.stop)}</th>{_column(plant, rows=2)}'
        f'<th colspan="2" class="group">{escape(words.insects)}</th>'
        f'<th colspan="4" class="group">{escape(words.squares)}</th>{_column(note, rows=2)}'
        f"</tr><tr>{''.join(map(_column, counts))}</tr></thead>"
        f"<tbody>{''.join(row for stop in stops for row in _rows(content, stop))}</tbody></table>"
    )


def _column(column: Column, rows: int = 1) -> str:
    shown = escape(column.shown)
    if column.shown != column.name:
        shown += f"<small>{escape(column.name)}</small>"
    return f'<th rowspan="{rows}" scope="col">{shown}</th>'


def _rows(content: SheetContent, stop: SheetStop) -> Iterator[str]:
    for plant in stop.rows:
        counted = plant <= stop.square_plants or not content.some_squares
        mark = "<i>•</i>" if counted and content.some_squares else ""
        squares = '<td class="set"></td>' if counted else '<td class="set idle"></td>'
        head = _place(content, stop) if plant == stop.first else ""
        start = ' class="start"' if plant == stop.first else ""
        yield (
            f'<tr{start}>{head}<th scope="row">{mark}{plant}</th>'
            f"<td></td><td></td>{squares * 4}<td></td></tr>"
        )


def _place(content: SheetContent, stop: SheetStop) -> str:
    return (
        f'<th rowspan="{stop.plants}" scope="rowgroup" class="place">'
        f"<b>{stop.number}</b>{_quarter(content, stop.quadrant)}{_mark(stop.quadrant)}</th>"
    )


def _quarter(content: SheetContent, quadrant: Quadrant) -> str:
    """Name a quarter as people do, with the walk table's letters where they differ."""
    shown = escape(content.quarters[quadrant])
    return shown if shown == quadrant.value else f"{shown}<small>{quadrant.value}</small>"


def _mark(quadrant: Quadrant) -> str:
    return f'<span class="mark {quadrant.value}"></span>'


def _notes(content: SheetContent) -> str:
    words = content.words
    heads = "".join(f'<th scope="col">{escape(note.title)}</th>' for note in words.notes)
    cells = "".join(map(_note, words.notes))
    rows = "".join(
        f'<tr><th scope="row">{_mark(quadrant)}{_quarter(content, quadrant)}</th>{cells}</tr>'
        for quadrant in QUADRANTS
    )
    return (
        f"<h2>{escape(words.once)} <small>{escape(words.tick)}</small></h2>"
        f'<table class="notes"><thead><tr><td></td>{heads}</tr></thead>'
        f"<tbody>{rows}</tbody></table>"
    )


def _note(note: QuarterNote) -> str:
    boxes = "".join(map(_tick, note.choices)) + BOX * note.numbers
    kind = "numbers" if note.numbers else "ticks"
    return f'<td class="{kind}"><div>{boxes}</div>{LINE if note.line else ""}</td>'
