"""What the pages show is what the tool does: Python examples, screens, tables."""

from __future__ import annotations

import contextlib
import doctest
import io
import shlex
import shutil
from pathlib import Path

import pytest

from quarterwalk.cli import main
from quarterwalk.errors import RefusedInput
from quarterwalk.files.plantings import COLUMNS as PLANTING_COLUMNS
from quarterwalk.files.plantings import read_plantings
from quarterwalk.files.walk_columns import COLUMNS as WALK_COLUMNS
from quarterwalk.files.walk_table import read_walks
from tests.contracts.source import ROOT, short
from tests.docs.said import DOCS, blocks, pages, rows

TABLES = DOCS / "tables.md"
READERS = {"walks": read_walks, "plantings": read_plantings}
WITH_PYTHON = [page for page in pages() if ">>> " in page.read_text(encoding="utf-8")]
SCREENS = [(page, text) for page in pages() for _, text in blocks(page, kind="console")]


@pytest.fixture(autouse=True)
def _in_the_clone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Stand where a reader of the pages stands, before a screen of 80 columns."""
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")


@pytest.mark.parametrize("page", WITH_PYTHON, ids=short)
def test_python_examples_give_what_the_page_says(page: Path) -> None:
    done = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert done.attempted
    assert not done.failed


def test_the_readme_and_the_reference_have_python_examples() -> None:
    assert {short(page) for page in WITH_PYTHON} >= {"README.md", "docs/api.md"}


def printed(words: list[str]) -> str:
    """Give what a command prints, standard error first as it comes."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
        main(words)
    return out.getvalue()


@pytest.mark.parametrize(("page", "text"), SCREENS, ids=lambda v: short(v) if v in pages() else "")
def test_screens_are_what_the_tool_prints(
    page: Path, text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # some of them write a folder, which must not be left in the clone
    for name in ("docs/examples", "examples"):
        shutil.copytree(ROOT / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    command, shown = text.split("\n", 1)
    words = shlex.split(command.removeprefix("$ "))
    assert words[0] == "quarterwalk"
    got = printed(words[1:])
    same = doctest.OutputChecker().check_output(shown.rstrip(), got.rstrip(), doctest.ELLIPSIS)
    assert same, got


def tables(*, refused: bool) -> list[tuple[str, str]]:
    """Give the example tables of the page, by kind: those taken, or those refused."""
    found = [(told.split()[1:], text) for told, text in blocks(TABLES, kind="csv")]
    return [(told[0], text) for told, text in found if ("refused" in told) is refused]


@pytest.mark.parametrize(("kind", "text"), tables(refused=False))
def test_example_tables_are_taken_without_a_notice(kind: str, text: str, tmp_path: Path) -> None:
    file = tmp_path / f"{kind}.csv"
    file.write_text(text, encoding="utf-8")
    assert READERS[kind](file).notices == ()


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        (kind, text, said)
        for (kind, text), (_, said) in zip(
            tables(refused=True), blocks(TABLES, kind="text"), strict=True
        )
    ],
)
def test_example_tables_with_faults_are_refused_in_these_words(
    kind: str, text: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / f"{kind}.csv").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(RefusedInput) as refused:
        READERS[kind](f"{kind}.csv")
    assert str(refused.value) == said.rstrip()


def test_a_blank_count_was_not_looked_at_and_0_was(tmp_path: Path) -> None:
    file = tmp_path / "walks.csv"
    file.write_text(tables(refused=False)[0][1], encoding="utf-8")
    checks = read_walks(file).table.walk(0).checks
    assert [(c.insects is None, c.squares is None) for c in checks] == [
        (False, False),
        (False, True),
        (True, False),
    ]


def test_two_days_with_one_walk_id_are_one_walk(tmp_path: Path) -> None:
    file = tmp_path / "walks.csv"
    file.write_text(tables(refused=False)[1][1], encoding="utf-8")
    heads = read_walks(file).table.heads
    assert [(h.field, h.date.isoformat()) for h in heads] == [
        ("Creek 60", "2026-06-24"),
        ("Home 40", "2026-06-24"),
    ]


@pytest.mark.parametrize(
    ("heading", "columns"),
    [("The walk table", WALK_COLUMNS), ("The plantings table", PLANTING_COLUMNS)],
)
def test_every_column_is_told_and_no_other(heading: str, columns: tuple[str, ...]) -> None:
    told = [name.strip(" `") for row in rows(TABLES, heading) for name in row[0].split(",")]
    assert sorted(told) == sorted(columns)


def test_the_example_field_is_the_one_that_the_method_pages_work_on_paper() -> None:
    walk = read_walks(DOCS / "examples" / "home-40.csv").table.walk(0)
    by_quarter = dict.fromkeys(("NW", "NE", "SW", "SE"), 0)
    for check in walk.checks:
        by_quarter[check.quadrant.value] += check.insects.total
    assert by_quarter == {"NW": 6, "NE": 2, "SW": 17, "SE": 3}
    squares = [check.squares for check in walk.checks]
    assert (sum(s.healthy for s in squares), sum(s.sites for s in squares)) == (244, 280)
