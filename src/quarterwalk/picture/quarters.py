"""Each quarter by itself, in compass order, all on one scale."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from quarterwalk.call import Call
from quarterwalk.call.figures import number, quarter_word, short
from quarterwalk.picture.drawing import Telling, drawing, element, figure, words
from quarterwalk.picture.found import Found, found_in
from quarterwalk.picture.ground import Box, hatched, post
from quarterwalk.picture.lettering import in_lines
from quarterwalk.picture.quarter import quarter_square
from quarterwalk.picture.scale import Scale
from quarterwalk.picture.theme import Theme
from quarterwalk.reading import Reading
from quarterwalk.walk import QUADRANTS, Method, Quadrant
from quarterwalk.words import phrase, spoken_in

_TALL = 96.0  # of a panel [px]
_BARE_TALL, _BARE_FIGURES = 62.0, 46.0  # the same without an axis [px]
_GAP = 20.0  # between two panels [px]
_TOP, _BOTTOM = 30.0, 60.0  # of the hatched ground in a panel [px]
_FIGURES = 82.0  # where the numbers stand [px]
_SMALL, _LEAD = 14.0, 18.0  # type size of the caption, and from line to line [px]
_DOT = 6.0
_USUAL = 2.3  # an axis reaches this many lines from its good end [lines]


@dataclass(frozen=True, slots=True)
class _Scales:
    """What all four panels share.

    Parameters
    ----------
    insects : Scale
        Insects on one plant, or in one sweep.
    squares : Scale
        Square set, from 1 down.
    line, floor : Fraction or None
        In the same units.
    """

    insects: Scale
    squares: Scale
    line: Fraction | None
    floor: Fraction | None
    sweeping: bool

    @property
    def bare(self) -> bool:
        """Whether nothing is asked for, so that an axis would compare with nothing."""
        return self.line is None and self.floor is None

    @property
    def tall(self) -> float:
        """Height of a panel. [px]"""
        return _BARE_TALL if self.bare else _TALL

    def over(self, found: Found) -> bool:
        """Tell whether a quarter has as many insects as the line, or more."""
        return self.line is not None and found.mean is not None and found.mean >= self.line


def quarters_small(
    reading: Reading, call: Call, *, theme: Theme, width: int, id: str, language: str
) -> str:
    """Draw each quarter against the line and the floor, in compass order.

    Where neither is in force there is nothing to compare with: numbers stand alone.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        By which line and floor it is read; where it has none, none is drawn.
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
        SVG.
    """
    found = found_in(reading)
    wide = (width - _GAP) / 2
    scales = _scales(found, reading, call, wide)
    with spoken_in(language):
        caption = _caption(call)
        lines = in_lines(caption, _SMALL, width)
        panels = "".join(
            element(
                "g",
                _panel(quadrant, found[quadrant], scales, wide),
                transform=_moved((wide + _GAP) * (i % 2), scales.tall * (i // 2)),
            )
            for i, quadrant in enumerate(QUADRANTS)
        )
        told = Telling(phrase("What was found in each quarter"), _desc(found, scales, caption))
        top = 2 * scales.tall
        tall = top + _LEAD * len(lines) + 4
        under = "".join(
            words(0, top + _LEAD * (i + 0.75), line, "qw-words qw-quiet", _SMALL)
            for i, line in enumerate(lines)
        )
    return drawing(panels + under, told, size=(width, tall), theme=theme, id=id)


def _moved(x: float, y: float) -> str:
    return f"translate({figure(x)} {figure(y)})"


def _scales(found: dict[Quadrant, Found], reading: Reading, call: Call, wide: float) -> _Scales:
    line = None if call.guideline.line is None else call.guideline.line / 100
    floor = call.guideline.floor
    most = max((float(each.mean) for each in found.values() if each.mean is not None), default=0.0)
    reach = max(_USUAL * float(line or 0), 1.1 * most) or 1.0
    least = min(
        (float(each.square_set) for each in found.values() if each.square_set is not None),
        default=1.0,
    )
    down = min(1 - _USUAL * (1 - float(floor)) if floor is not None else 0.5, least - 0.05)
    edge = _DOT + 2
    return _Scales(
        Scale(0.0, reach, edge, wide - edge if floor is None else wide / 2 - edge),
        Scale(1.0, max(down, 0.0), wide - edge, wide / 2 + edge),
        line,
        floor,
        reading.method is Method.SWEEP,
    )


def _panel(quadrant: Quadrant, found: Found, scales: _Scales, wide: float) -> str:
    head = quarter_square(quadrant, 0, 0, 20) + words(
        27, 16, quarter_word(quadrant), "qw-words qw-bold", 17
    )
    measures = "" if scales.bare else _measures(found, scales, wide)
    return head + measures + _figures(found, scales, wide)


def _measures(found: Found, scales: _Scales, wide: float) -> str:
    """Draw axes, ground, posts and dots, each over the ones before."""
    insects = _Dotted(scales.insects, scales.line, found.mean, past=scales.over(found))
    sides = [insects]
    if scales.floor is not None:
        under = found.square_set is not None and found.square_set < scales.floor
        sides.append(_Dotted(scales.squares, scales.floor, found.square_set, past=under))
    parts = [_axis(side) for side in sides]
    if insects.post_x is not None:
        ends = [side.post_x or wide for side in sides[1:]] or [wide]
        parts.append(hatched(Box(insects.post_x, _TOP, ends[0], _BOTTOM)))
    parts += [_rim(side) for side in sides]
    parts += [post(side.post_x, _TOP - 5, _BOTTOM, wide=3) for side in sides if side.post_x]
    return "".join(parts + [_dot(side) for side in sides])


@dataclass(frozen=True, slots=True)
class _Dotted:
    """One measure of a quarter along its axis; a dot, since a quarter has no range."""

    scale: Scale
    limit: Fraction | None
    value: Fraction | None
    past: bool

    @property
    def post_x(self) -> float | None:
        return None if self.limit is None else self.scale(float(self.limit))

    @property
    def x(self) -> float | None:
        return None if self.value is None else self.scale(float(self.value))


def _axis(side: _Dotted) -> str:
    start, y = side.scale.start, (_TOP + _BOTTOM) / 2
    stop = side.scale.stop if side.post_x is None else side.post_x
    line = element(
        "path",
        d=f"M{figure(start)},{figure(y)}H{figure(stop)}",
        cls="qw-unseen" if side.value is None else "qw-axis",
    )
    tick = f"M{figure(start)},{figure(y - 5)}V{figure(y + 5)}"
    return line + element("path", d=tick, cls="qw-axis")


def _rim(side: _Dotted) -> str:
    y = (_TOP + _BOTTOM) / 2
    return "" if side.x is None else element("circle", cx=side.x, cy=y, r=_DOT + 2, cls="qw-rim")


def _dot(side: _Dotted) -> str:
    if side.x is None:
        return ""
    cls = "qw-past" if side.past else "qw-short-of"
    return element("circle", cx=side.x, cy=(_TOP + _BOTTOM) / 2, r=_DOT, cls=cls)


def _figures(found: Found, scales: _Scales, wide: float) -> str:
    insects, squares = _said(found, scales)
    y = _BARE_FIGURES if scales.bare else _FIGURES
    return words(0, y, insects, "qw-words qw-bold", 15) + words(
        wide, y, squares, "qw-words qw-bold qw-end", 15
    )


def _said(found: Found, scales: _Scales) -> tuple[str, str]:
    insects = phrase("{insects} on {plants}", insects=found.insects, plants=found.looked)
    if scales.sweeping:
        insects = phrase("{insects} in {sweeps}", insects=found.insects, sweeps=found.looked)
    if not found.looked:
        insects = "–"
    if found.square_set is None:
        return insects, "–"
    floor = None if scales.floor is None else 100 * scales.floor
    return insects, f"{short(100 * found.square_set, floor)} %"


def _caption(call: Call) -> str:
    line, floor = call.guideline.line, call.guideline.floor
    said = phrase("Left: insects, and what they were counted on. Right: squares still good.")
    if line is None:
        return said
    if floor is None:
        return f"{said} " + phrase("The post is the line, {line} per 100.", line=number(line))
    return f"{said} " + phrase(
        "The posts are the line, {line} per 100, and the floor, {floor} %.",
        line=number(line),
        floor=number(100 * floor),
    )


def _desc(found: dict[Quadrant, Found], scales: _Scales, caption: str) -> str:
    each = [
        phrase(
            "{quarter}: insects {insects}, squares still good {squares}.",
            quarter=quarter_word(quadrant),
            insects=_said(found[quadrant], scales)[0],
            squares=_said(found[quadrant], scales)[1],
        )
        for quadrant in QUADRANTS
    ]
    return " ".join([*each, caption]).strip()
