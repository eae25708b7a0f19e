"""Reports made to order, and what their faces say when they are read back."""

from __future__ import annotations

import io
import random
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from functools import cache
from html.parser import HTMLParser

from pypdf import PdfReader
from shapely import MultiPolygon, box

from quarterwalk.call import Call, CallOptions
from quarterwalk.field import Field, Layout, lay_out
from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.reading import Reading, take_reading
from quarterwalk.report import Report, make_report
from quarterwalk.walk import InsectCount, Method, Quadrant, SquareCount, WalkHead
from tests.call.made import FIRST_SQUARE, call, reading, walk

# About 120 acres, 700 m a side.
_SHAPE = MultiPolygon([box(-101.8, 33.6, -101.7925, 33.6063)])
PAST_BOTH = {"healthy": 252, "missing": 31, "blasted": 35}


@cache
def laid(name: str = "Windmill 80", grower: str = "Marlow Teague") -> Layout:
    return lay_out(Field(name, _SHAPE, grower=grower), date(2026, 6, 20))


def report(
    read: Reading | None = None,
    made: Call | None = None,
    *,
    field: str = "Windmill 80",
    day: int = 10,
    layout: Layout | None = None,
    language: str = "en",
    **named: str,
) -> Report:
    """Report a walk `day` days after first square; unless said, one past both lines."""
    read = read or reading(34, **PAST_BOTH)
    made = made or call(read, day=day, options=CallOptions(language=language))
    head = WalkHead(field, FIRST_SQUARE + timedelta(days=day), scouts=("Joss Verel",))
    who = {"advisor": "Tamsin Orrick", "contact": "555-0142", **named}
    return make_report(head, read, made, layout=layout, language=language, **who)


def unlike(language: str) -> Iterator[tuple[str, Report]]:
    """Give reports of calls as unlike as they come."""
    speaks = CallOptions(language=language)

    def told(read: Reading, rule: str = "southern-high-plains", day: int = 10, **dates) -> Report:
        made = call(read, rule, day=day, options=speaks, **dates)
        return report(read, made, day=day, language=language, layout=laid())

    yield "treat", told(reading(34, **PAST_BOTH))
    yield "near", told(reading(18, healthy=270, missing=20, blasted=10))
    yield "hold", told(reading(0, healthy=300))
    yield "other causes", told(reading(0, healthy=250, missing=60))
    yield "squares not told", told(reading(34))
    yield "just treated", told(reading(34, **PAST_BOTH), treated=3)
    yield "weeks differ", told(reading(34, healthy=267, missing=33), latest=6)
    yield "unfinished", told(reading(12, plants=(20, 20, 0, 10)))
    yield "too early", told(reading(3), day=-3)
    yield "over", told(reading(3), day=40, bloom=30)
    yield "bloom date", told(reading(3), day=50)
    yield "other method", told(reading(5, method=Method.BUCKET))
    yield "blasted", told(reading(30, healthy=80, blasted=20), "kansas")
    yield "insects alone", told(reading(20), "mid-coast")
    sweeps = reading(18, method=Method.SWEEP, sweeps=1, healthy=240, missing=60)
    yield "sweep", told(sweeps, "tennessee-sweep")


def longest(language: str, tries: int = 1500) -> list[Report]:
    """Search for the calls with most to say, a few of each verdict."""
    dice = random.Random(1)
    most: dict[object, list[tuple[int, int, Reading, Call, int]]] = {}
    for n in range(tries):
        read, made, day = _any_call(dice, language)
        signs = sum(len(each.text) for each in (*made.reasons, *made.cautions))
        most.setdefault(made.verdict, []).append((signs, n, read, made, day))
    return [
        report(read, made, day=day, language=language, layout=laid())
        for found in most.values()
        for _, _, read, made, day in sorted(found, reverse=True)[:2]
    ]


def _any_call(dice: random.Random, language: str) -> tuple[Reading, Call, int]:
    rule = load_guideline(dice.choice(guideline_names()))
    rule = replace(rule, own=dice.random() < 0.5)
    line = None
    if rule.allowed_line() is not None and dice.random() < 0.6:
        low, high = rule.allowed_line()
        line = low + (high - low) * Fraction(dice.choice([1, 2, 4]), 4)
    day, read = dice.choice([-3, 3, 10, 15, 20, 32, 40, 46]), _any_reading(dice, rule.method)
    made = call(
        read,
        rule,
        day=day,
        latest=dice.choice([0, 3, 8, 15]),
        treated=dice.choice([None, None, 2, 6]),
        options=CallOptions(line=line, language=language),
    )
    return read, made, day


def _any_reading(dice: random.Random, method: Method) -> Reading:
    plants = dice.choice([(25, 25, 25, 25), (20, 20, 20, 3), (10, 10, 10, 11), (20, 0, 20, 20)])
    sweeps = 4 if method is Method.SWEEP else None
    empty = walk(plants=plants, method=method, sweeps=sweeps, plan=dice.choice(["", "a7"]))
    density, kept = dice.choice([0, 0.1, 0.25, 0.4]), dice.choice([0.6, 0.84, 0.95])
    counted, hot = dice.choice([0, 0.15, 1]), dice.choice(list(Quadrant))
    checks = []
    for check in empty.checks:
        mean = density * (4 if check.quadrant is hot else 1)
        insects = InsectCount(sum(dice.random() < mean / 3 for _ in range(3)), 0)
        lost = [dice.choice("mbf") for _ in range(3) if dice.random() > kept]
        squares = SquareCount(3 - len(lost), *(lost.count(kind) for kind in "mbf"))
        squares = squares if dice.random() < counted else None
        checks.append(replace(check, insects=insects, squares=squares))
    return take_reading(replace(empty, checks=tuple(checks)))


class _Shown(HTMLParser):
    """Collects what a page shows, each piece of text by itself, and its elements."""

    def __init__(self) -> None:
        super().__init__()
        self.pieces: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        self._unseen += tag in ("style", "title", "desc")

    def handle_endtag(self, tag: str) -> None:
        self._unseen -= tag in ("style", "title", "desc")

    def handle_data(self, data: str) -> None:
        if not self._unseen and data.strip():
            self.pieces.append(data.strip())


def shown(html: str) -> _Shown:
    """Read a page as a browser would."""
    read = _Shown()
    read.feed(html)
    read.close()
    return read


def page_words(html: str) -> str:
    """Give all that a page shows, in one line."""
    return " ".join(" ".join(shown(html).pieces).split())


def pdf_pages(pdf: bytes) -> list[str]:
    """Give what each page of a PDF shows."""
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def squeezed(text: str) -> str:
    """Take out all white space, and the hyphen that Spanish says again on the next line."""
    return "".join(text.split()).replace("--", "-")
