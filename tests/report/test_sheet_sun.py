"""The line about the sun on a walk sheet: which way to walk in, and when it is overhead."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import UTC, date, tzinfo
from zoneinfo import ZoneInfo

import pytest
from pypdf import PdfReader
from shapely import MultiPolygon, box

from quarterwalk.field import Field, Layout, lay_out
from quarterwalk.report.pdf import Paper
from quarterwalk.report.sheet import sheet_pdf, walk_sheet
from quarterwalk.report.sheet_page import sheet_page
from quarterwalk.report.sheet_sun import sun_line

TEXAS = ZoneInfo("America/Chicago")
# About 60 acres, 33.5 north and 101.9 west, where the page on sun and heat works its examples.
SHAPE = MultiPolygon([box(-101.903, 33.4975, -101.897, 33.5025)])
FACING = "Walk in facing the sun: your shadow falls behind you."


def laid(day: date = date(2026, 6, 21)) -> Layout:
    return lay_out(Field("Windmill 80", SHAPE, gate=(-101.9, 33.4975)), day)


def line(day: date, zone: tzinfo | None = None) -> str:
    layout = laid()
    return sun_line(replace(layout, on=day), zone)


def test_with_a_zone_the_hours_are_those_of_the_clock() -> None:
    # 12:18 to 15:21 on June 21 and 13:05 to 14:39 on August 15, on the page on sun and heat
    said = "From {} the sun is overhead: lean back from the plant."
    assert line(date(2026, 6, 21), TEXAS) == f"{FACING} {said.format('12:18 to 15:21')}"
    assert line(date(2026, 8, 15), TEXAS) == f"{FACING} {said.format('13:05 to 14:39')}"


def test_without_a_zone_the_scouts_own_arm_tells_and_no_clock_is_needed() -> None:
    said = "While it is shorter than your arm, around midday, lean back from the plant."
    assert line(date(2026, 6, 21)) == f"{FACING} {said}"
    assert line(date(2026, 8, 15)) == f"{FACING} {said}"


@pytest.mark.parametrize("zone", [None, TEXAS, UTC])
def test_where_the_sun_is_never_overhead_only_the_way_is_told(zone: tzinfo | None) -> None:
    assert line(date(2026, 12, 21), zone) == FACING


@pytest.mark.parametrize("zone", [None, TEXAS])
@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_line_is_one_line_on_paper(paper: Paper, language: str, zone: tzinfo | None) -> None:
    pytest.importorskip("typst", reason="needs the report extra")
    content = walk_sheet(laid(), language=language, zone=zone)
    (page, *_) = PdfReader(io.BytesIO(sheet_pdf(content, paper=paper))).pages
    assert content.sun in page.extract_text().splitlines()


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_line_stands_on_the_first_page_and_costs_none(paper: Paper, language: str) -> None:
    pytest.importorskip("typst", reason="needs the report extra")
    content = walk_sheet(laid(), week=2, language=language, zone=TEXAS)
    pages = PdfReader(io.BytesIO(sheet_pdf(content, paper=paper))).pages
    assert len(pages) == 2
    assert content.sun in " ".join(pages[0].extract_text().split())


def test_the_page_to_print_has_the_line_once() -> None:
    content = walk_sheet(laid(), zone=TEXAS)
    assert sheet_page(content).count(f'<p class="sun">{content.sun}</p>') == 1
