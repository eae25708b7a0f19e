"""The walk on paper: a blank sheet to write on where a phone is not to be relied upon."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from datetime import date, tzinfo

from quarterwalk.call.figures import quarter_word
from quarterwalk.field import Layout, Loop
from quarterwalk.field.square_plants import square_plants
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.picture import Theme, field_sketch, quarter_mark
from quarterwalk.report.html import file_text
from quarterwalk.report.names import clipped, plain
from quarterwalk.report.pdf import Paper
from quarterwalk.report.sheet_pages import SheetLoop, SheetPage, SheetStop, deal_out
from quarterwalk.report.sheet_sun import sun_line
from quarterwalk.report.sheet_words import SheetWords, sheet_words
from quarterwalk.report.typeset import typeset
from quarterwalk.units import FOOT_M, MILE_FEET
from quarterwalk.walk import QUADRANTS, Quadrant
from quarterwalk.words import phrase, phrase_for, spoken_in

# What the sketch is drawn at; it is printed smaller. [px]
SKETCH = (500, 372)
# What fits beside the lines at the head of a later page. [characters]
LONGEST_NAME = 30
# Row height on paper: a pencil in a glove needs 5.5 at least (this project's rule). [mm]
ROW_MM = {Paper.LETTER: 5.6, Paper.A4: 6.1}


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row to write on: the keys that the walk table will hold for it."""

    quadrant: Quadrant
    stop: int
    plant: int
    squares: bool


@dataclass(frozen=True, slots=True)
class SheetContent:
    """A walk sheet as it will be printed, on paper or as a page.

    Every text is worded already, in one language, and is plain text.

    Parameters
    ----------
    language : str
        What it is worded in.
    field : str
        The field's name, as the walk table will have it.
    on : date
        The day that its stops were laid out for.
    facts : tuple of str
        Size, grower, farm and guideline, as far as they are known.
    sun : str
        Which way to walk in, and when the sun stands overhead that day.
    sketch : str
        The field with its quarters, stops and loops, as SVG.
    sketch_told : str
        What the sketch shows, for those who hear it.
    quarters : mapping of Quadrant to str
        What people call them; the walk table has the letters of `Quadrant`.
    marks : mapping of Quadrant to str
        The quarter marks, as SVG.
    loops : tuple of SheetLoop
        In the order of walking.
    some_squares : bool
        Whether squares are counted on the marked plants only.
    laid_out : str
        For the foot: which day the stops are for.
    words : SheetWords
        What is the same in all fields.
    """

    language: str
    field: str
    on: date
    facts: tuple[str, ...]
    sun: str
    sketch: str
    sketch_told: str
    quarters: Mapping[Quadrant, str]
    marks: Mapping[Quadrant, str]
    loops: tuple[SheetLoop, ...]
    some_squares: bool
    laid_out: str
    words: SheetWords

    @property
    def short_field(self) -> str:
        """The field's name, cut where it is too long for the head of a later page."""
        return clipped(self.field, LONGEST_NAME)

    @property
    def rows(self) -> tuple[SheetRow, ...]:
        """The rows in the order of walking."""
        return tuple(
            SheetRow(stop.quadrant, stop.number, plant, plant <= stop.square_plants)
            for loop in self.loops
            for stop in loop.stops
            for plant in stop.rows
        )

    @property
    def pages(self) -> tuple[SheetPage, ...]:
        """The loops dealt out over pages; one of them has the notes of the quarters."""
        with spoken_in(self.language):
            return deal_out(self.loops)


def walk_sheet(
    layout: Layout,
    *,
    guideline: Guideline | None = None,
    week: int | None = None,
    language: str = "en",
    zone: tzinfo | None = None,
) -> SheetContent:
    """Make a blank sheet for one walk of one field, its rows in the order of walking.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk.
    guideline : Guideline or None
        The rule that the walk will be judged by, where it is known.
    week : int or None
        Squaring week, the first is 1; None where it is not known. It decides on which
        plants squares are counted. [count]
    language : str
        What the sheet is worded in, ``en`` or ``es``.
    zone : tzinfo or None
        Of the clocks where the field lies, where it is known.

    Returns
    -------
    SheetContent
        Worded, drawn, and ready for paper or page.
    """
    with spoken_in(language):
        name = plain(layout.field.name) or phrase("A field without a name")
        counted = square_plants(layout.stops, guideline, week)
        some = 0 < sum(counted.values()) < sum(stop.plants for stop in layout.stops)
        return SheetContent(
            language=language,
            field=name,
            on=layout.on,
            facts=_facts(layout, guideline),
            sun=sun_line(layout, zone),
            sketch=_sketch(layout, language),
            sketch_told=phrase(
                "Sketch of {field} with its quarters, numbered stops and loops.",
                field=name,
            ),
            quarters={q: quarter_word(q) for q in QUADRANTS},
            marks={q: _mark(q, language) for q in QUADRANTS},
            loops=tuple(_loops(layout, counted)),
            some_squares=some,
            laid_out=phrase(
                "Stops laid out for {day}; another day has other stops.", day=layout.on
            ),
            words=sheet_words(guideline, week, marked=some),
        )


def sheet_pdf(content: SheetContent, *, paper: Paper = Paper.LETTER) -> bytes:
    """Set a walk sheet to print.

    Parameters
    ----------
    content : SheetContent
        The sheet.
    paper : Paper
        What it is printed on.

    Returns
    -------
    bytes
        A PDF of two pages for the usual walk of 100 plants.

    Raises
    ------
    MissingExtra
        Where the report extra is not installed.
    """
    told = asdict(content) | {
        "on": str(content.on),
        "pages": [asdict(page) for page in content.pages],
        "paper": paper.value,
        "short_field": content.short_field,
        "row": ROW_MM[paper],
    }
    pictures = {"sketch": content.sketch} | {q.value: svg for q, svg in content.marks.items()}
    return typeset(
        file_text("sheet.typ"),
        {name: told[name] for name in told if name not in ("sketch", "marks")},
        pictures,
        title=f"{content.words.kind}: {content.field}",
        on=content.on,
        language=content.language,
    )


def _facts(layout: Layout, guideline: Guideline | None) -> tuple[str, ...]:
    field = layout.field
    facts = [phrase("{acres} acres", acres=f"{layout.acres:.0f}")]
    if field.grower:
        facts.append(phrase("Grower: {grower}", grower=plain(field.grower)))
    if field.farm:
        facts.append(phrase("Farm: {farm}", farm=plain(field.farm)))
    if guideline is not None:
        facts.append(
            phrase(
                "Guideline: {name}, edition {edition}",
                name=guideline.name,
                edition=guideline.edition,
            )
        )
    return tuple(facts)


def _sketch(layout: Layout, language: str) -> str:
    width, height = SKETCH
    return field_sketch(
        layout, theme=Theme.PRINT, width=width, height=height, id="sketch", language=language
    )


def _mark(quadrant: Quadrant, language: str) -> str:
    return quarter_mark(quadrant, theme=Theme.PRINT, id=f"mark-{quadrant.value}", language=language)


def _loops(layout: Layout, counted: Mapping[int, int]) -> Iterator[SheetLoop]:
    seen: dict[Quadrant, int] = defaultdict(int)
    for loop in layout.loops:
        stops = [stop for stop in layout.stops if stop.loop == loop.number]
        for stop in stops:
            seen[stop.quadrant] += stop.plants
        yield SheetLoop(
            loop.number,
            phrase("Loop {number}", number=loop.number),
            _way(loop, sum(stop.plants for stop in stops)),
            tuple(SheetStop(s.number, s.quadrant, s.plants, counted[s.number]) for s in stops),
            _closing(seen, loop.number, last=loop is layout.loops[-1]),
        )


def _way(loop: Loop, plants: int) -> str:
    miles = loop.metres / float(FOOT_M * MILE_FEET)
    return phrase_for(
        round(loop.minutes),
        "{plants} plants, {miles} miles, about {count} minute of walking",
        "{plants} plants, {miles} miles, about {count} minutes of walking",
        plants=plants,
        miles=f"{miles:.1f}",
    )


def _closing(seen: Mapping[Quadrant, int], loop: int, *, last: bool) -> str:
    plants = sum(seen.values())
    if last:
        return phrase("{plants} plants: the whole walk.", plants=plants)
    routine = load_routine()
    enough = all(seen.get(q, 0) >= routine.least_per_quadrant for q in QUADRANTS)
    if not enough or plants < routine.least_plants:
        return phrase("{plants} plants so far. Go on.", plants=plants)
    # a call is made by so many already, though by fewer than it takes for a firm one
    if loop == 1:
        return phrase("{plants} plants: first loop done.", plants=plants)
    return phrase("{plants} plants: loop {number} done.", plants=plants, number=loop)
