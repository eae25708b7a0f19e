"""A browser that dies mid-walk takes no plant with it that its screen had shown as saved."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from playwright.sync_api import Playwright

from tests.browser.altered import that_paints_early
from tests.browser.crash import begin, crashes, moments
from tests.browser.server import Server

MOMENTS = moments(25, seed=7)


def test_no_plant_that_was_shown_as_saved_is_lost(
    playwright: Playwright, filled: Server, tmp_path: Path
) -> None:
    office = filled.copied(tmp_path / "data")
    begin(playwright, office, tmp_path / "profile")
    ends = list(crashes(playwright, office, tmp_path / "profile", MOMENTS))
    assert [end.moment for end in ends] == MOMENTS
    assert all(end.shown >= end.moment.plants for end in ends)
    assert sum(end.lost for end in ends) == 0


def test_a_page_that_shows_a_plant_before_it_is_kept_is_found_out(
    playwright: Playwright, filled: Server, tmp_path: Path
) -> None:
    office = that_paints_early(filled.copied(tmp_path / "data"), tmp_path / "page")
    begin(playwright, office, tmp_path / "profile")
    at_once = [replace(moment, late=0.0) for moment in MOMENTS]
    ends = crashes(playwright, office, tmp_path / "profile", at_once)
    assert any(end.lost for end in ends), "the test above can't fail"
