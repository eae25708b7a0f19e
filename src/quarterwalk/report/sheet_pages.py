"""The rows of a walk sheet dealt out over its pages, in two columns, loop by loop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from quarterwalk.walk import Quadrant
from quarterwalk.words import phrase

# Rows that a column holds at 5.6 mm on the shorter of the two papers: beside the sketch,
# on a page of rows alone, and above the notes of the quarters. Measured on the print. [rows]
FIRST, PLAIN, ABOVE_NOTES = 20, 38, 30
# What the head, the bar and the column names of one more loop on a page take. [rows]
BETWEEN = 5


@dataclass(frozen=True, slots=True)
class SheetStop:
    """A stop's rows: its plants from `first` on, those up to `square_plants` with squares."""

    number: int
    quadrant: Quadrant
    plants: int
    square_plants: int
    first: int = 1

    @property
    def rows(self) -> range:
        """Numbers of the plants."""
        return range(self.first, self.first + self.plants)


@dataclass(frozen=True, slots=True)
class SheetLoop:
    """A loop's stops, with its head and the bar that closes it."""

    number: int
    title: str
    way: str
    stops: tuple[SheetStop, ...]
    closing: str


@dataclass(frozen=True, slots=True)
class Band:
    """Stops of one loop side by side on one page; `closing` is empty where it goes on."""

    title: str
    way: str
    left: tuple[SheetStop, ...]
    right: tuple[SheetStop, ...]
    closing: str

    @property
    def height(self) -> int:
        """Rows of the longer column. [rows]"""
        return max(_rows(self.left), _rows(self.right))


@dataclass(frozen=True, slots=True)
class SheetPage:
    """One side of paper."""

    bands: tuple[Band, ...]
    notes: bool
    foot: str


def deal_out(loops: Sequence[SheetLoop]) -> tuple[SheetPage, ...]:
    """Deal the loops out over pages.

    A loop begins on a page that has room for all of it, else on the next one. The notes
    of the quarters stand on the last page that has room for them.

    Parameters
    ----------
    loops : sequence of SheetLoop
        In the order of walking.

    Returns
    -------
    tuple of SheetPage
        Worded in the language spoken.
    """
    pages: list[list[Band]] = [[]]
    for loop in map(_in_pieces, loops):
        whole = _band(loop, loop.stops, begun=False)
        room = _room(len(pages)) - _used(pages[-1])
        if pages[-1] and whole.height + BETWEEN <= room:
            pages[-1].append(whole)
            continue
        if pages[-1]:
            pages.append([])
        for band in _cut(loop, len(pages)):
            if pages[-1]:
                pages.append([])
            pages[-1].append(band)
    roomy = [n for n, bands in enumerate(pages[1:], 2) if _used(bands) <= ABOVE_NOTES]
    if not roomy:
        pages.append([])
        roomy = [len(pages)]
    return tuple(
        SheetPage(
            tuple(bands),
            number == roomy[-1],
            phrase("Page {page} of {pages}", page=number, pages=len(pages)),
        )
        for number, bands in enumerate(pages, 1)
    )


def _in_pieces(loop: SheetLoop) -> SheetLoop:
    """Cut stops that are longer than a column of the first page."""
    pieces = (
        replace(stop, first=first, plants=min(FIRST, stop.plants - first + 1))
        for stop in loop.stops
        for first in range(1, stop.plants + 1, FIRST)
    )
    return replace(loop, stops=tuple(pieces))


def _room(page: int) -> int:
    return FIRST if page == 1 else PLAIN


def _used(bands: Sequence[Band]) -> int:
    return sum(band.height for band in bands) + BETWEEN * max(len(bands) - 1, 0)


def _cut(loop: SheetLoop, page: int) -> Iterator[Band]:
    """Cut a loop into bands that each fill an empty page, from that page on."""
    left = loop.stops
    while left:
        number = len(left)
        while number > 1 and _band(loop, left[:number], begun=False).height > _room(page):
            number -= 1
        band = _band(loop, left[:number], begun=len(left) < len(loop.stops))
        left = left[number:]
        yield replace(band, closing="") if left else band
        page += 1


def _band(loop: SheetLoop, stops: tuple[SheetStop, ...], *, begun: bool) -> Band:
    half = (len(stops) + 1) // 2
    title = phrase("{loop}, continued", loop=loop.title) if begun else loop.title
    way = "" if begun else loop.way
    return Band(title, way, stops[:half], stops[half:], loop.closing)


def _rows(stops: Sequence[SheetStop]) -> int:
    return sum(stop.plants for stop in stops)
