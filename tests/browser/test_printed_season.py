"""A season's page takes one sheet of paper when it is printed from the browser."""

from __future__ import annotations

import io
from pathlib import Path

from playwright.sync_api import Playwright
from pypdf import PdfReader

from quarterwalk.report.season_page import season_html
from quarterwalk.words import LANGUAGES
from tests.browser.chromium import opened
from tests.report.made_seasons import unlike


def test_every_season_takes_one_sheet_of_letter_and_of_a4(
    playwright: Playwright, tmp_path: Path
) -> None:
    sheets = {}
    with opened(playwright, tmp_path / "desk", phone=False) as desk:
        page = desk.pages[0]
        for language in LANGUAGES:
            for kind, report in unlike(language):
                page.set_content(season_html(report))
                for paper in ("Letter", "A4"):
                    printed = PdfReader(io.BytesIO(page.pdf(format=paper)))
                    sheets[language, kind, paper] = len(printed.pages)
    assert len(sheets) >= 24
    assert {each: count for each, count in sheets.items() if count != 1} == {}
