"""The leaf: one estimate, its tips the range, widest at the reading, split at the line."""

from __future__ import annotations

from dataclasses import dataclass

from quarterwalk.picture.drawing import figure

Point = tuple[float, float]

# How far the rims run level with the midrib at a tip, and at the widest place.
# [fraction of the way from the tip to the reading]
_TIP, _BELLY = 0.28, 0.5


@dataclass(frozen=True, slots=True)
class Curve:
    """One cubic curve whose x only grows."""

    points: tuple[Point, Point, Point, Point]

    def at_x(self, x: float) -> float:
        """Give how far along the curve x is reached. [fraction]"""
        low, high = 0.0, 1.0
        for _ in range(60):
            middle = (low + high) / 2
            if self._x(middle) < x:
                low = middle
            else:
                high = middle
        return (low + high) / 2

    def _x(self, t: float) -> float:
        a, b, c, d = (point[0] for point in self.points)
        s = 1 - t
        return s**3 * a + 3 * s * s * t * b + 3 * s * t * t * c + t**3 * d

    def parted(self, x: float) -> tuple[Curve, Curve]:
        """Cut the curve in two at x, by de Casteljau's construction."""
        t = self.at_x(x)
        level = list(self.points)
        head, tail = [level[0]], [level[-1]]
        while len(level) > 1:
            level = [_between(p, q, t) for p, q in zip(level, level[1:], strict=False)]
            head.append(level[0])
            tail.insert(0, level[-1])
        head[-1] = tail[0] = (x, head[-1][1])
        return Curve(_four(head)), Curve(_four(tail))


@dataclass(frozen=True, slots=True)
class Leaf:
    """A leaf lying along its midrib.

    Parameters
    ----------
    low, reading, high : float
        Where its left tip, its widest place and its right tip stand. [px]
    y : float
        Where the midrib lies. [px]
    half : float
        Half its height. [px]
    """

    low: float
    reading: float
    high: float
    y: float
    half: float

    def __post_init__(self) -> None:
        if not self.low <= self.reading <= self.high or self.low == self.high:
            raise ValueError(
                f"a leaf must run from low by its reading to high,"
                f" got {self.low}, {self.reading}, {self.high}"
            )

    @property
    def path(self) -> str:
        """The whole leaf, as the data of a path."""
        return self.part(self.low, self.high)

    def split(self, x: float) -> tuple[str, str]:
        """Part the leaf at a line.

        Parameters
        ----------
        x : float
            Where the line stands. [px]

        Returns
        -------
        (str, str)
            Data of a path for the part left of it and for the part right of it; empty
            where there is none.
        """
        return self.part(self.low, x), self.part(x, self.high)

    def part(self, left: float, right: float) -> str:
        """Give what stands between two upright lines.

        Parameters
        ----------
        left, right : float
            Where the lines stand. [px]

        Returns
        -------
        str
            Data of a path; empty where the leaf does not reach between them.
        """
        left, right = max(left, self.low), min(right, self.high)
        if left >= right:
            return ""
        above, below = (_clipped(self._rim(side), left, right) for side in (-1, 1))
        return _closed(above, below)

    def _rim(self, side: int) -> list[Curve]:
        """Give one rim from the left tip to the right, above (-1) or below (1)."""
        top = self.y + side * self.half
        near = self.y + side * self.half * _BELLY
        halves = []
        for tip in (self.low, self.high):
            way = self.reading - tip
            halves.append(
                (
                    (tip, self.y),
                    (tip + _TIP * way, near),
                    (self.reading - _BELLY * way, top),
                    (self.reading, top),
                )
            )
        left, right = halves
        return [Curve(left), Curve(_four(list(reversed(right))))]


def _clipped(rim: list[Curve], left: float, right: float) -> list[Curve]:
    """Keep what a rim, running rightwards, has between two upright lines."""
    kept = []
    for curve in rim:
        if curve.points[3][0] <= left or curve.points[0][0] >= right:
            continue
        inner = curve.parted(left)[1] if curve.points[0][0] < left else curve
        kept.append(inner.parted(right)[0] if inner.points[3][0] > right else inner)
    return kept


def _closed(above: list[Curve], below: list[Curve]) -> str:
    """Run along the upper rim and back along the lower one."""
    back = [Curve(_four(list(reversed(curve.points)))) for curve in reversed(below)]
    first = above[0].points[0]
    turn = back[0].points[0]
    return f"M{_pair(first)}" + _run(above) + f"L{_pair(turn)}" + _run(back) + "Z"


def _run(curves: list[Curve]) -> str:
    return "".join("C" + " ".join(_pair(p) for p in curve.points[1:]) for curve in curves)


def _pair(point: Point) -> str:
    return f"{figure(point[0])},{figure(point[1])}"


def _between(p: Point, q: Point, t: float) -> Point:
    return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))


def _four(points: list[Point]) -> tuple[Point, Point, Point, Point]:
    a, b, c, d = points
    return a, b, c, d
