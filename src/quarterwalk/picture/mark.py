"""The marks of the outcomes: apart, touching, together, and two bare posts."""

from __future__ import annotations

from quarterwalk.call import Verdict
from quarterwalk.picture.drawing import element, figure
from quarterwalk.picture.leaf import Leaf

# All marks are drawn in a box of this size, about its middle. [px]
MARK_WIDTH, MARK_HEIGHT = 60.0, 28.0

_INK = {
    Verdict.HOLD: "hold",
    Verdict.LOOK_SOONER: "near",
    Verdict.TREAT: "treat",
}


def outcome_mark(
    verdict: Verdict, x: float, y: float, *, scale: float = 1, on_ink: bool = False
) -> str:
    """Draw the mark of an outcome.

    Parameters
    ----------
    verdict : Verdict
        Which.
    x, y : float
        Its middle. [px]
    scale : float
        How much larger than in a list. [ratio]
    on_ink : bool
        Whether it stands on filled ground.

    Returns
    -------
    str
    """
    ink = None if on_ink else _INK.get(verdict)
    inside = {
        Verdict.HOLD: _apart,
        Verdict.LOOK_SOONER: _touching,
        Verdict.TREAT: _together,
        Verdict.NONE: _bare,
    }[verdict](ink or ("blank" if on_ink else "ink"), on_ink=on_ink)
    place = f"translate({figure(x)} {figure(y)})"
    return element(
        "g", inside, transform=place + (f" scale({figure(scale)})" if scale != 1 else "")
    )


def _apart(ink: str, *, on_ink: bool) -> str:
    leaves = [Leaf(-27, -19, -11, 0, 7), Leaf(11, 19, 27, 0, 7)]
    return _outlines(leaves, ink, on_ink=on_ink) + _posts(9, on_ink=on_ink)


def _touching(ink: str, *, on_ink: bool) -> str:
    leaves = [Leaf(-22, -11, 0, 0, 9), Leaf(0, 11, 22, 0, 9)]
    beside = 8 if on_ink else 11  # keeps the posts in sight where all is of one colour
    inner = [leaves[0].split(-beside)[1], leaves[1].split(beside)[0]]
    filled = "".join(element("path", d=part, cls=f"qw-{ink}") for part in inner)
    return filled + _outlines(leaves, ink, on_ink=on_ink) + _posts(11, on_ink=on_ink)


def _together(ink: str, *, on_ink: bool) -> str:
    return element("path", d=Leaf(-25, 0, 25, 0, 14).path, cls=f"qw-{ink}")


def _bare(ink: str, *, on_ink: bool) -> str:
    return _posts(9, on_ink=on_ink)


def _outlines(leaves: list[Leaf], ink: str, *, on_ink: bool) -> str:
    cls = "qw-paper-line" if on_ink else f"qw-{ink}-line"
    return element("path", d="".join(leaf.path for leaf in leaves), cls=cls)


def _posts(apart: float, *, on_ink: bool) -> str:
    cls = "qw-blank" if on_ink else "qw-ink"
    return "".join(
        element("rect", x=x - 1.25, y=-13, width=2.5, height=26, cls=cls) for x in (-apart, apart)
    )
