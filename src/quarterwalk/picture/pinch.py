"""The pinch: insects from the left, squares from the right, hatched ground between."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.call import Call, Verdict
from quarterwalk.picture.drawing import Telling, drawing, element, words
from quarterwalk.picture.ground import Box, flag, flag_width, hatched, post
from quarterwalk.picture.lettering import room
from quarterwalk.picture.measure import Measure, blasted_of, insects_of, set_of
from quarterwalk.picture.pinch_scale import falling, growing
from quarterwalk.picture.pinch_side import Side, axis, dot, estimate
from quarterwalk.picture.pinch_words import Kind, SideWords, side_words
from quarterwalk.picture.theme import Theme
from quarterwalk.picture.why import no_call_word
from quarterwalk.reading import Reading
from quarterwalk.words import phrase, spoken_in

_WHOLE = 100  # so many counted need no "per" [plants or sweeps]
_FLAG = 17.0  # type size of a flag [px]
_TOP, _BOTTOM = 31.0, 97.0  # of the hatched ground [px]
_LANE = 118.0  # where the words at the ends of the axes stand [px]
_INSET = 10.0  # from the drawing's edge to the end of an axis, at least [px]
_MIDDLE = 5.0  # from the middle to where a side ends [px]
_TWO_LINES = (148.0, 172.0)
_THREE_LINES = (154.0, 176.0, 197.0)


def pinch(
    reading: Reading,
    call: Call,
    *,
    level: float,
    theme: Theme,
    width: int,
    id: str,
    language: str,
) -> str:
    """Draw whether both measures are past their lines, each with its range.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        What was decided, and by which line and floor.
    level : float
        Chance that a range holds the true value. [fraction]
    theme : Theme
        Where it will be seen.
    width : int
        [px]
    id : str
        Begins every id inside.
    language : str
        Of its words.

    Returns
    -------
    str
        SVG. Where there is no call, two bare posts and the word for why.
    """
    with spoken_in(language):
        sides = _sides(reading, call, level)
        whole = (reading.sweeps or reading.plants) == _WHOLE
        texts = [side_words(kind, each, reading.method, whole=whole) for kind, each in sides]
        under, tall = _under(texts, width)
        if call.verdict is Verdict.NONE:
            above = _nothing(call, width)
        else:
            above = _above(sides, texts, width)
        told = Telling(phrase("Insects and squares against their lines"), _desc(texts))
    return drawing(above + under, told, size=(width, tall), theme=theme, id=id)


def _sides(reading: Reading, call: Call, level: float) -> list[tuple[Kind, Measure]]:
    """Give the measures that the guideline reads, insects first."""
    sides = [(Kind.INSECTS, insects_of(reading, call, level))]
    blasted = call.guideline.blasted
    if blasted is not None and call.verdict is not Verdict.NONE:
        sides.append((Kind.BLASTED, blasted_of(reading, blasted, level)))
    elif call.guideline.floor is not None or call.verdict is Verdict.NONE:
        sides.append((Kind.SET, set_of(reading, call, level)))
    return sides


def _above(sides: list[tuple[Kind, Measure]], texts: list[SideWords], width: float) -> str:
    """Draw the axes, the ground, the posts and the leaves, in this order."""
    placed = [
        _placed(kind, measure, text, width, alone=len(sides) == 1)
        for (kind, measure), text in zip(sides, texts, strict=True)
    ]
    ground = Box(placed[0].post_x, _TOP, placed[1].post_x if len(placed) > 1 else width, _BOTTOM)
    parts = [axis(side) for side in placed] + [hatched(ground)]
    if len(placed) > 1:
        middle = width / 2
        parts.append(element("path", d=f"M{middle:g},{_TOP:g}V{_BOTTOM:g}", cls="qw-unseen"))
    parts += [estimate(side) for side in placed]
    for side, text in zip(placed, texts, strict=True):
        parts.append(post(side.post_x, 0, _BOTTOM))
        parts.append(flag(side.post_x, text.flag, _FLAG, leftward=side.leftward))
    parts += [dot(side) for side in placed]
    return "".join(parts) + _lane(texts, ground, width)


def _placed(kind: Kind, measure: Measure, text: SideWords, width: float, *, alone: bool) -> Side:
    """Lay one side out, with room for its flag at the outer end."""
    inset = _INSET
    scale_of = falling if kind is Kind.SET else growing
    leftward = kind is Kind.INSECTS
    for _ in range(3):
        start = inset if leftward else width - inset
        stop = width - 1 if alone else width / 2 + (-_MIDDLE if leftward else _MIDDLE)
        scale = scale_of(measure, start, stop)
        stands = scale(float(measure.limit or 0))
        spare = (stands if leftward else width - stands) - flag_width(text.flag, _FLAG)
        inset += max(0.0, -spare)
    return Side(measure, scale, leftward, (_TOP + _BOTTOM) / 2, (_BOTTOM - _TOP) / 2 - 6)


def _lane(texts: list[SideWords], ground: Box, width: float) -> str:
    """Name the ends of the axes, and the ground between the posts."""
    small = 15.0
    parts = [words(2, _LANE, texts[0].end, "qw-words qw-quiet", small)]
    past, middle = phrase("past the line"), (ground.left + ground.right) / 2
    if len(texts) > 1:
        parts.append(words(width - 2, _LANE, texts[1].end, "qw-words qw-quiet qw-end", small))
    left = room(texts[0].end, small) + 14
    right = width - (room(texts[1].end, small) + 14 if len(texts) > 1 else 0)
    half = room(past, small) / 2
    if right - left >= 2 * half:
        middle = min(max(middle, left + half), right - half)
        parts.append(words(middle, _LANE, past, "qw-words qw-bold qw-middle", small))
    return "".join(parts)


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of words on each side."""

    texts: tuple[str, ...]
    size: float
    cls: str

    def fits(self, width: float) -> bool:
        return sum(room(text, self.size) for text in self.texts) + 24 <= width


def _under(texts: list[SideWords], width: float) -> tuple[str, float]:
    """Set the words below, in two lines where they fit and else in three."""
    long = [
        _Row(tuple(t.headline for t in texts), 20, "qw-words qw-bold"),
        _Row(tuple(t.range_long for t in texts), 16, "qw-words"),
    ]
    if all(row.fits(width) for row in long):
        return _rows(long, _TWO_LINES, width), _TWO_LINES[-1] + 8
    ranges = _Row(tuple(t.range_short for t in texts), 15, "qw-words")
    if not ranges.fits(width):
        ranges = _Row(tuple(t.range_bare for t in texts), 15, "qw-words")
    brief = [
        _Row(tuple(t.figures for t in texts), 32, "qw-words qw-bold"),
        _shrunk(_Row(tuple(t.unit for t in texts), 15, "qw-words qw-bold"), width),
        _shrunk(ranges, width),
    ]
    return _rows(brief, _THREE_LINES, width), _THREE_LINES[-1] + 8


def _shrunk(row: _Row, width: float) -> _Row:
    """Take smaller type where two texts would run into each other."""
    size = row.size
    while size > 11 and not _Row(row.texts, size, row.cls).fits(width):
        size -= 0.5
    return _Row(row.texts, size, row.cls)


def _rows(rows: list[_Row], at: tuple[float, ...], width: float) -> str:
    parts = []
    for row, y in zip(rows, at, strict=True):
        for i, text in enumerate(row.texts):
            end = " qw-end" if i else ""
            parts.append(words(width - 2 if i else 2, y, text, row.cls + end, row.size))
    return "".join(parts)


def _nothing(call: Call, width: float) -> str:
    """Draw two bare posts, with the word for why no line holds."""
    y = (_TOP + _BOTTOM) / 2
    why, size = no_call_word(call.reasons[0].code), 20.0
    half = max(width / 6, room(why, size) / 2 + 20)
    left, right = width / 2 - half, width / 2 + half
    lines = f"M{_INSET:g},{y:g}H{left - 8:g}M{right + 8:g},{y:g}H{width - _INSET:g}"
    return (
        element("path", d=lines, cls="qw-unseen")
        + post(left, _TOP, _BOTTOM)
        + post(right, _TOP, _BOTTOM)
        + words(width / 2, y + size * 0.35, why, "qw-words qw-bold qw-middle", size)
    )


def _desc(texts: list[SideWords]) -> str:
    said = [", ".join(part for part in (t.headline, t.range_long) if part) for t in texts]
    return " ".join(f"{sentence[:1].upper()}{sentence[1:]}." for sentence in said)
