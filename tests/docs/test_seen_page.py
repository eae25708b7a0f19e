"""The page on what was seen says what the reader of the table does."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from quarterwalk.crop import load_needs
from quarterwalk.crop.window import days_for
from quarterwalk.errors import RefusedInput
from quarterwalk.files.seen_table import COLUMNS, read_seen
from tests.docs.said import DOCS, blocks, rows

PAGE = DOCS / "seen.md"
TAKEN, REFUSED = (text for _, text in blocks(PAGE, kind="csv"))


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
    ((_, said),) = blocks(PAGE, kind="text")
    assert str(refused.value) == said.rstrip()


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
