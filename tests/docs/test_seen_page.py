"""The page on what was seen says what the reader of the table does."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from quarterwalk.call.clock_told import worked_out
from quarterwalk.crop import CropDates, Seen, given_standing, load_needs
from quarterwalk.crop.window import days_for
from quarterwalk.errors import RefusedInput
from quarterwalk.files.seen_table import COLUMNS, read_seen
from tests.docs.said import DOCS, blocks, rows, section

PAGE = DOCS / "seen.md"
TAKEN, REFUSED = (text for _, text in blocks(PAGE, kind="csv"))
TEXTS = [text for _, text in blocks(PAGE, kind="text")]


def test_every_column_is_told_and_no_other() -> None:
    told = [row[0].strip("`") for row in rows(PAGE, "The table of what was seen")]
    assert sorted(told) == sorted(COLUMNS)


def test_the_example_table_is_the_file_that_the_screens_use() -> None:
    file = DOCS / "examples" / "seen.csv"
    assert file.read_text(encoding="utf-8") == TAKEN
    assert read_seen(file).notices == ()


def test_the_table_with_faults_is_refused_in_these_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("seen.csv").write_text(REFUSED, encoding="utf-8")
    with pytest.raises(RefusedInput) as refused:
        read_seen("seen.csv")
    assert str(refused.value) == TEXTS[0].rstrip()


def test_flowers_stand_for_first_bloom_in_these_words() -> None:
    on = date(2026, 7, 10)
    seen = [Seen(date(2026, 7, 8), bloom=True)]
    _, stage = given_standing(on, CropDates(date(2026, 6, 18)), seen)
    (reason,) = worked_out(stage)
    assert reason.text == TEXTS[1].rstrip()
    assert f"(`{reason.code}`)" in section(PAGE, "Where first square is given")


def test_the_branches_on_the_page_make_the_days_on_the_page() -> None:
    (seen,) = read_seen(DOCS / "examples" / "seen.csv").seen["Creek 60"]
    assert (seen.on, seen.squaring_branches) == (date(2026, 6, 22), pytest.approx(3.0))
    days = days_for(3.0, load_needs())
    assert days == pytest.approx(7.5)
    reach = load_needs().value("branch_reach") * load_needs().value("branch_days")
    assert (days + reach, days - reach) == (pytest.approx(13.5), pytest.approx(1.5))


@pytest.mark.parametrize(
    ("name", "value"),
    [("half", 0.5), ("first_branch_node", 6.5), ("node_heat", 55), ("branch_days", 3),
     ("cutout_nodes", 5), ("flower_node_heat", 130)],
)  # fmt: skip
def test_the_numbers_on_the_page_are_those_of_the_clock(name: str, value: float) -> None:
    assert load_needs().value(name) == value
