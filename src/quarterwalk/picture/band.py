"""The band of outcomes: places side by side, the verdict's the widest."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.call import Verdict
from quarterwalk.call.verdict import verdict_words
from quarterwalk.picture.drawing import element, figure, words
from quarterwalk.picture.lettering import in_lines, room
from quarterwalk.picture.mark import MARK_HEIGHT, MARK_WIDTH, outcome_mark

_ORDER = (Verdict.HOLD, Verdict.LOOK_SOONER, Verdict.TREAT)
_GROUND = {Verdict.HOLD: "hold", Verdict.LOOK_SOONER: "near", Verdict.TREAT: "treat"}

BAND_HEIGHT = 132.0
_CORNER = 14.0
_INSET = 2.0  # keeps the frame's line inside the drawing [px]
_LARGE = (44.0, 34.0, 27.0, 22.0)  # sizes that the verdict may take [px]
_SMALL = (20.0, 17.0, 15.0, 13.0)  # sizes that the other outcomes may take [px]
_LEAST_MARK = 0.55  # a mark above its word is at least so large [of its size in a list]
_LINE = 1.12  # from one line of words to the next [type size]


@dataclass(frozen=True, slots=True)
class Cell:
    """One outcome and the place it has in the band."""

    outcome: Verdict
    left: float
    right: float

    @property
    def middle(self) -> float:
        """Halfway across it. [px]"""
        return (self.left + self.right) / 2

    @property
    def wide(self) -> float:
        """Its width. [px]"""
        return self.right - self.left


def cells_of(verdict: Verdict, width: float) -> list[Cell]:
    """Share the band out; the verdict has about twice the room of another outcome.

    Parameters
    ----------
    verdict : Verdict
        What to do.
    width : float
        Of the band. [px]

    Returns
    -------
    list of Cell
        Hold, look sooner, treat; and last no call, where there is none.
    """
    order = (*_ORDER, Verdict.NONE) if verdict is Verdict.NONE else _ORDER
    shares = [2.2 if each is verdict else 1.0 for each in order]
    each = (width - 2 * _INSET) / sum(shares)
    cells, left = [], _INSET
    for outcome, share in zip(order, shares, strict=True):
        cells.append(Cell(outcome, left, left + share * each))
        left = cells[-1].right
    return cells


def other_place(cell: Cell) -> str:
    """Draw an outcome that is not the verdict: its mark, and its word below.

    Parameters
    ----------
    cell : Cell
        Its place.

    Returns
    -------
    str
    """
    size, lines = _fitted(verdict_words(cell.outcome), cell.wide - 12, _SMALL)
    scale = min(1.0, (cell.wide - 16) / MARK_WIDTH)
    top = BAND_HEIGHT / 2 - (MARK_HEIGHT + 8 + len(lines) * size * _LINE) / 2
    return outcome_mark(cell.outcome, cell.middle, top + MARK_HEIGHT / 2, scale=scale) + _stacked(
        lines, cell.middle, top + MARK_HEIGHT + 8, size, "qw-words qw-bold qw-middle"
    )


def verdict_place(cell: Cell, note: str, *, provisional: bool) -> str:
    """Draw the verdict: filled, its word large.

    Parameters
    ----------
    cell : Cell
        Its place.
    note : str
        A few words below; may be empty.
    provisional : bool
        Whether it is outlined instead.

    Returns
    -------
    str
    """
    outlined = provisional and cell.outcome is not Verdict.NONE
    filled = cell.outcome is not Verdict.NONE and not outlined
    ink = " qw-on-ink" if filled else ""
    for sizes in (_LARGE, *((size,) for size in (*_LARGE[2:], *_SMALL[1:]))):
        size, lines = _fitted(verdict_words(cell.outcome), cell.wide - 24, sizes)
        small, notes = _fitted(note, cell.wide - 24, _SMALL[1:]) if note else (0.0, [])
        tall = (len(lines) * size + len(notes) * small) * _LINE
        largest = 1.25 if cell.outcome is Verdict.NONE else 1.7
        scale = min(largest, (BAND_HEIGHT - 28 - tall) / MARK_HEIGHT)
        if scale >= _LEAST_MARK:
            break
    mark = MARK_HEIGHT * scale
    top = (BAND_HEIGHT - mark - 4 - tall) / 2
    under = top + mark + 4
    return (
        (_ground(cell) if filled else "")
        + (_for_now(cell) if outlined else "")
        + outcome_mark(cell.outcome, cell.middle, top + mark / 2, scale=scale, on_ink=filled)
        + _stacked(lines, cell.middle, under, size, f"qw-words qw-bold qw-middle{ink}")
        + _stacked(
            notes,
            cell.middle,
            under + len(lines) * size * _LINE,
            small,
            f"qw-words qw-middle{ink}",
        )
    )


def _ground(cell: Cell) -> str:
    """Fill the verdict's place, its outer corners round like the band's."""
    left_round = _CORNER if cell.outcome is Verdict.HOLD else 0.0
    right_round = _CORNER if cell.outcome is Verdict.TREAT else 0.0
    top, bottom = _INSET, BAND_HEIGHT - _INSET
    f = figure
    shape = (
        f"M{f(cell.left + left_round)},{f(top)}H{f(cell.right - right_round)}"
        f"q{f(right_round)},0 {f(right_round)},{f(right_round)}V{f(bottom - right_round)}"
        f"q0,{f(right_round)} {f(-right_round)},{f(right_round)}H{f(cell.left + left_round)}"
        f"q{f(-left_round)},0 {f(-left_round)},{f(-left_round)}V{f(top + left_round)}"
        f"q0,{f(-left_round)} {f(left_round)},{f(-left_round)}Z"
    )
    return element("path", d=shape, cls=f"qw-{_GROUND[cell.outcome]}")


def _for_now(cell: Cell) -> str:
    return element(
        "rect",
        x=cell.left + 6,
        y=_INSET + 6,
        width=cell.wide - 12,
        height=BAND_HEIGHT - 2 * _INSET - 12,
        rx=_CORNER - 5,
        cls="qw-for-now",
    )


def band_frame(cells: list[Cell], width: float) -> str:
    """Draw the band's frame, and a line between two places.

    Parameters
    ----------
    cells : list of Cell
        All places.
    width : float
        Of the band. [px]

    Returns
    -------
    str
    """
    walls = "".join(
        f"M{figure(cell.right)},{figure(_INSET)}V{figure(BAND_HEIGHT - _INSET)}"
        for cell in cells[:-1]
    )
    return element("path", d=walls, cls="qw-frame") + element(
        "rect",
        x=_INSET,
        y=_INSET,
        width=width - 2 * _INSET,
        height=BAND_HEIGHT - 2 * _INSET,
        rx=_CORNER,
        cls="qw-frame",
    )


def _fitted(text: str, wide: float, sizes: tuple[float, ...]) -> tuple[float, list[str]]:
    """Give the largest size at which the words stand in one line, or else in several."""
    for size in sizes[:2]:
        if room(text, size) <= wide:
            return size, [text]
    for size in sizes[1:]:
        lines = in_lines(text, size, wide)
        if all(room(line, size) <= wide for line in lines):
            return size, lines
    longest = max(room(word, 1) for word in text.split())
    size = min(sizes[-1], wide / longest)
    return size, in_lines(text, size, wide)


def _stacked(lines: list[str], x: float, top: float, size: float, cls: str) -> str:
    return "".join(
        words(x, top + size * (0.85 + _LINE * i), line, cls, size) for i, line in enumerate(lines)
    )
