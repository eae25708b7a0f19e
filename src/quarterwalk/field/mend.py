"""A boundary mended where that is safe, and refused where it would be a guess."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from quarterwalk.field.area import acres_of
from quarterwalk.field.rings import NoField, Part, Ring, tidied
from quarterwalk.field.tangle import tangled
from quarterwalk.words import ENGLISH, phrase, phrase_for, spoken_in

MOST_CHANGE = 0.01
"""Share of a field's area that mending may change. A fold at a corner changes far less;
a boundary drawn as a figure of eight changes more (this project's rule). [fraction]"""

LEAST_PIECE_ACRES = 0.01
"""Smaller pieces and holes are slips of the drawing, or a pole: about 20 by 20 feet (this
project's rule). [acre]"""

LEAST_ACRES, MOST_ACRES = 0.25, 10_000
"""Areas that a field may have. Four quadrants of less than a quarter acre are a garden;
ten thousand acres are a district (this project's rule). [acre]"""

MOST_MENDED_POINTS = 5_000
"""Points that a boundary may have to be mended; more make it slow (this project's rule).
[count]"""

_LEAST_SAID = 1e-4  # Change that is told by its size. [fraction]
_NOTHING = 1e-9  # Share of an area that is rounding. [fraction]


@dataclass(frozen=True, slots=True)
class Mended:
    """A boundary that is whole, and how it came to be so.

    Parameters
    ----------
    shape : MultiPolygon
        Valid, outer rings counter-clockwise. [degrees]
    done : tuple of str
        Each repair as a sentence.
    turned : bool
        Whether rings ran the wrong way round; nobody has to hear of each.
    """

    shape: MultiPolygon
    done: tuple[str, ...]
    turned: bool


def mend(parts: Sequence[Part], *, language: str = ENGLISH) -> Mended:
    """Make a boundary out of rings as they were drawn, if it is plain what was meant.

    Parameters
    ----------
    parts : sequence of tuples of arrays, each of shape (points, 2)
        Each an outer ring and after it its holes, in longitude and latitude. [degrees]
    language : str
        Language of the sentences. ["en" or "es"]

    Returns
    -------
    Mended
        The boundary, and what was done.

    Raises
    ------
    NoField
        If the rings are no field, or nobody can tell which field they are.
    """
    with spoken_in(language):
        tidy, done = tidied(parts)
        try:
            shape = _joined(tidy, done)
        except shapely.errors.GEOSException:
            raise _muddle() from None
        _refuse_size(acres_of(shape))
        shape = _without_slips(shape, done)
        return Mended(shapely.orient_polygons(shape), tuple(done), _turned(tidy))


def _turned(parts: Iterable[Part]) -> bool:
    return any(
        (signed_area(ring) > 0) == (place > 0) for part in parts for place, ring in enumerate(part)
    )


def signed_area(ring: Ring) -> float:
    """Give the area that a closed ring runs round; negative where it runs clockwise.

    Parameters
    ----------
    ring : array, shape (points, 2)
        Its last point is its first. [any unit]

    Returns
    -------
    float
        Where it crosses itself, what runs the other way is taken off. [that unit, squared]
    """
    x, y = (ring - ring[0]).T
    return float(np.dot(x[:-1], y[1:]) - np.dot(x[1:], y[:-1])) / 2


def _joined(parts: Sequence[Part], done: list[str]) -> MultiPolygon:
    plain = MultiPolygon([Polygon(outer, holes) for outer, *holes in parts])
    if plain.is_valid:
        return plain
    rings = [ring for part in parts for ring in part]
    if sum(map(len, rings)) > MOST_MENDED_POINTS or tangled(rings):
        raise _muddle()
    told = len(done)
    whole = _one([_with_holes(part, done) for part in parts], done)
    if len(done) == told:
        done.append(phrase("rings that touch were joined to one boundary; the area is the same."))
    return whole


def _muddle() -> NoField:
    return NoField(
        "one that crosses itself many times",
        "a boundary that does not cross itself",
        "Draw it again, or thin out its points.",
    )


def _with_holes(part: Part, done: list[str]) -> BaseGeometry:
    """Cut the holes out of an outer ring, each of them mended first."""
    solid, *holes = (_unfolded(ring, done) for ring in part)
    inside = [hole for hole in holes if solid.intersection(hole).area > _NOTHING * hole.area]
    if len(inside) < len(holes):
        done.append(
            phrase_for(
                len(holes) - len(inside),
                "a hole that lies outside the outer ring was left out; if it is land of the "
                "field, draw it as a part of its own.",
                "{count} holes that lie outside the outer ring were left out; if they are land "
                "of the field, draw them as parts of their own.",
            )
        )
    cut = shapely.union_all(inside)
    if sum(hole.area for hole in inside) > cut.area * (1 + _NOTHING):
        done.append(phrase("holes that overlap were joined."))
    if cut.difference(solid).area > _NOTHING * solid.area:
        done.append(phrase("a hole that reached over the outer ring was cut off at the ring."))
    return solid.difference(cut)


def _unfolded(ring: Ring, done: list[str]) -> BaseGeometry:
    """Give the area inside a ring, unless it crosses itself so that nobody can tell which."""
    drawn = Polygon(ring)
    if drawn.is_valid:
        return drawn
    mended = _areas(shapely.make_valid(drawn, method="structure", keep_collapsed=False))
    if not mended.area:
        raise NoField("points on one line", "a boundary with land inside")
    change = abs(mended.area - abs(signed_area(ring))) / mended.area
    if change > MOST_CHANGE:
        sizes = sorted((acres_of(piece) for piece in _pieces(mended)), reverse=True)
        pieces = " and ".join(f"{size:.3g}" for size in sizes[:3])
        raise NoField(
            f"one that crosses itself; its pieces have {pieces} acres",
            "a boundary that does not cross itself",
            "Nobody can tell which land was meant. Put its corners in the order in which one "
            "walks around the field.",
        )
    if change > _NOTHING:
        share = (
            f"{100 * change:.2f} %"
            if change >= _LEAST_SAID
            else phrase("under {share}", share="0.01 %")
        )
        done.append(
            phrase(
                "the ring crossed itself in a small fold; it was mended, which changed the area "
                "by {share}.",
                share=share,
            )
        )
    else:
        done.append(phrase("the ring touched itself; it was mended, and the area is the same."))
    return mended


def _one(parts: Sequence[BaseGeometry], done: list[str]) -> MultiPolygon:
    """Join the parts of a field, unless they overlap by more than a slip."""
    joined = _areas(shapely.union_all(parts))
    if not joined.area:
        raise NoField("holes that leave nothing of it", "a boundary with land inside")
    overlap = sum(part.area for part in parts) - joined.area
    if overlap > MOST_CHANGE * joined.area:
        raise NoField(
            f"parts that overlap by {100 * overlap / joined.area:.3g} % of the field",
            "a field whose parts lie side by side",
            "Give each piece of land once, or make two fields of it.",
        )
    if overlap > _NOTHING * joined.area:
        done.append(phrase("parts that overlap a little were joined."))
    elif len(_pieces(joined)) < sum(len(_pieces(part)) for part in parts):
        done.append(phrase("parts that share an edge were joined."))
    return joined


def _pieces(shape: BaseGeometry) -> list[Polygon]:
    """Give the polygons of a shape, without any lines and points beside them."""
    return [piece for piece in shapely.get_parts(shape) if piece.geom_type == "Polygon"]


def _areas(shape: BaseGeometry) -> MultiPolygon:
    flat = shapely.get_parts(shapely.get_parts(shape))
    return MultiPolygon([piece for piece in flat if piece.geom_type == "Polygon"])


def _refuse_size(acres: float) -> None:
    if not LEAST_ACRES <= acres <= MOST_ACRES:
        hint = "Too small to be walked in four quadrants."
        if acres > MOST_ACRES:
            hint = "Is it the boundary of a farm or a district? Give each field its own."
        size = f"{acres:,.4g} acres" if acres < MOST_ACRES else f"{acres:,.0f} acres"
        raise NoField(size, f"a field of {LEAST_ACRES:g} to {MOST_ACRES:,} acres", hint)


def _without_slips(shape: MultiPolygon, done: list[str]) -> MultiPolygon:
    """Drop pieces and fill holes that are too small to be meant."""
    pieces = list(shape.geoms)
    if len(pieces) == 1 and not pieces[0].interiors:
        return shape
    kept = [piece for piece in pieces if acres_of(Polygon(piece.exterior)) >= LEAST_PIECE_ACRES]
    if not kept:
        raise NoField("slivers only", f"pieces of at least {LEAST_PIECE_ACRES:g} acres")
    if len(kept) < len(pieces):
        done.append(
            phrase_for(
                len(pieces) - len(kept),
                "a piece of under {acres} acres was dropped.",
                "{count} pieces of under {acres} acres each were dropped.",
                acres=f"{LEAST_PIECE_ACRES:g}",
            )
        )
    filled = [_without_small_holes(piece) for piece in kept]
    gone = sum(
        len(was.interiors) - len(now.interiors) for was, now in zip(kept, filled, strict=True)
    )
    if gone:
        done.append(
            phrase_for(
                gone,
                "a hole of under {acres} acres was filled.",
                "{count} holes of under {acres} acres each were filled.",
                acres=f"{LEAST_PIECE_ACRES:g}",
            )
        )
    return MultiPolygon(filled)


def _without_small_holes(piece: Polygon) -> Polygon:
    holes = [h for h in piece.interiors if acres_of(Polygon(h)) >= LEAST_PIECE_ACRES]
    return Polygon(piece.exterior, holes) if len(holes) < len(piece.interiors) else piece
