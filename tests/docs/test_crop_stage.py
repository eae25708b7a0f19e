"""The page of the crop's clock: its numbers are those of the data, its example that of the code."""

from __future__ import annotations

import re
from datetime import date, datetime

import pytest

from quarterwalk.crop import (
    Event,
    Seen,
    load_needs,
    outlook_of,
    read_clock,
)
from quarterwalk.crop.chain import EARLIEST, LATEST, TOO_SOON, UNLIKE
from quarterwalk.guideline import Source, SourceKind
from tests.crop.seasons import PLANTED, after, steady
from tests.docs.said import DOCS, rows, section

PAGE = DOCS / "methods" / "crop-stage.md"
NEEDS = load_needs()
WORDS = {SourceKind.COMMON_PRACTICE: "common practice", SourceKind.FROM_MEMORY: "from memory",
         SourceKind.OWN_RULE: "ours"}  # fmt: skip
SQUARE, BLOOM = Event.FIRST_SQUARE, Event.FIRST_BLOOM
STEADY = "Steady heat: 18 DD60 a day, planted 8 May"


def cited(source: Source) -> str:
    """Tell a source as the page does: by its place in the list, or by a word."""
    if source.kind in WORDS:
        return WORDS[source.kind]
    numbered = re.findall(r"^(\d+)\. (.+)$", section(PAGE, "Sources"), re.MULTILINE)
    return next(f"[{n}]" for n, line in numbered if source.title.split(" (")[0] in line)


def test_the_needs_on_the_page_are_those_of_the_data():
    told = [
        [f"`{event}`", f"{need.mean:g} ± {need.sd:g}", need.unit.removeprefix("DD60 from "),
         ", ".join(cited(source) for source in need.sources), need.why]
        for event, need in NEEDS.needs.items()
    ]  # fmt: skip
    assert rows(PAGE, "The chain") == told


def test_the_numbers_of_a_plant_on_the_page_are_those_of_the_data():
    told = [
        [f"`{name}`", f"{each.value:g}" + (f" ± {each.sd:g}" if each.sd else "") + f" {each.unit}",
         cited(each.source), each.why]
        for name, each in NEEDS.growth.items()
    ]  # fmt: skip
    assert rows(PAGE, "The numbers of a plant") == told


def test_the_floor_and_the_latest_days_on_the_page_are_those_of_the_code():
    text = " ".join(section(PAGE, "The chain").split())
    assert f"+ {UNLIKE:.2f} w(".replace("0.", ".") in text
    for letter, told in (("E", EARLIEST), ("L", LATEST)):
        first, *others, last = told.values()
        assert f"*{letter}* = {first}, {', '.join(map(str, others))} and {last} days" in text
    assert "share a hundredth of it. So *w* is .99/(*L* − *E* + 1)" in text
    assert TOO_SOON == 0.01


def day(text: str) -> date:
    return datetime.strptime(f"{text} 2026", "%d %B %Y").date()  # noqa: DTZ007


def span(text: str) -> tuple[date, date]:
    first, last = text.split(" to ")
    return day(first), day(last)


def steady_clock(*seen: Seen, on: date = PLANTED):
    return read_clock(steady(18.0), on=on, seen=seen)


@pytest.mark.parametrize("row", rows(PAGE, STEADY)[:3], ids=lambda row: row[0])
def test_days_of_steady_heat_on_the_page_are_those_of_the_code(row):
    odds = steady_clock().odds[Event(row[0].replace(" ", "_"))]
    assert odds.likely == day(row[2])
    assert odds.within(0.8) == span(row[4])
    assert f"day {(odds.likely - PLANTED).days}" in row[1]


def test_what_follows_from_steady_heat_on_the_page_is_what_the_code_says():
    text, clock = " ".join(section(PAGE, STEADY).split()), steady_clock()
    told = outlook_of(clock)
    assert clock.first_square == span(re.search(r"far end on: (.+?)\.", text)[1])
    assert told.weeds_until == day(re.search(r"cleared until (.+?),", text)[1])
    assert told.weeds_again == day(re.search(r"again from (.+?)\.", text)[1])
    assert told.begin == span(re.search(r"= 4\.0 days: (.+?)\.", text)[1])


def test_the_look_at_pinheads_on_the_page_is_what_the_code_says():
    seen = Seen(after(32), plants=20, pinhead=14)
    clock = steady_clock(seen, on=after(32))
    odds = clock.odds[SQUARE]
    for row in rows(PAGE, "A look: 14 of 20 pinheads on 9 June"):
        assert odds.chance[(day(row[0]) - PLANTED).days] == pytest.approx(float(row[6]), abs=0.006)
    text = " ".join(section(PAGE, "A look: 14 of 20 pinheads on 9 June").split())
    assert odds.likely == day(re.search(r"The middle is (.+?) \(", text)[1])
    assert odds.within(0.8) == span(re.search(r"three days (.+?) hold", text)[1])
    assert clock.first_square == span(re.search(r"The call takes (.+?)\.", text)[1])
    assert clock.odds[BLOOM].within(0.8) == span(re.search(r"same look: (.+?), 23", text)[1])
    weeks = steady_clock(seen, on=day("13 June")).weeks.weeks
    shares = [float(share) for share in re.findall(r"week \d with (\.\d+)", text)]
    assert weeks[:2] == pytest.approx(shares, abs=0.006)


def test_the_look_at_branches_on_the_page_is_what_the_code_says():
    clock = steady_clock(Seen(day("20 June"), squaring_branches=3), on=day("20 June"))
    text = " ".join(section(PAGE, "Another: 3 squaring branches on 20 June").split())
    odds = clock.odds[SQUARE]
    assert odds.within(0.8) == span(re.search(r"first square is (.+?);", text)[1])
    left = span(re.search(r"either way: (.+?) is left", text)[1])
    assert odds.chance[: (left[0] - PLANTED).days].sum() == 0
    assert odds.by(left[1]) == pytest.approx(1)
    week, share = re.search(r"week (\d) with (\.\d+)", text).groups()
    assert clock.weeks.weeks[int(week) - 1] == pytest.approx(float(share), abs=0.006)
