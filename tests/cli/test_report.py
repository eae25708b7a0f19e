"""What growers are told of a table of walks: pages, PDFs, texts and the list of them."""

from __future__ import annotations

import csv
import io
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest
from pypdf import PdfReader

from quarterwalk.cli import main
from tests.cli.ground import Run, files_in, run_in, write_fields
from tests.cli.tables import rows, table

RULE = ["--guideline", "southern-high-plains", "--first-square", "2026-06-10"]
# 8.5 by 11 inches, and 210 by 297 mm. [points]
LETTER, A4 = (612, 792), (595, 842)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return run_in(tmp_path, monkeypatch, capsys)


@pytest.fixture
def no_typst(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make it as if the report extra were not installed."""
    monkeypatch.setitem(sys.modules, "typst", None)


needs_typst = pytest.mark.usefixtures("typst")


@pytest.fixture
def typst() -> None:
    pytest.importorskip("typst", reason="needs the report extra")


def write_walks(*walks: list[str]) -> str:
    Path("walks.csv").write_text(table(*walks), encoding="utf-8")
    return "walks.csv"


def named(name: str, **found: int) -> list[str]:
    """Give a walk of a field with any name."""
    cell = io.StringIO()
    csv.writer(cell, lineterminator="").writerow([name])
    return [row.replace("Home 40", cell.getvalue(), 1) for row in rows(**found)]


class Page(HTMLParser):
    """The words, links, tags and language of a page."""

    def __init__(self, path: str | Path) -> None:
        super().__init__()
        self.words, self.links, self.tags, self.lang = "", [], set(), None
        self._hidden = False
        self.feed(Path(path).read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.tags.add(tag)
        self._hidden = tag == "style"
        link = unquote(found.get("href") or "") if tag == "a" else ""
        if link and link not in self.links:
            self.links.append(link)
        if tag == "html":
            self.lang = found.get("lang")

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.words = f"{self.words} {data}"

    @property
    def plain(self) -> str:
        return " ".join(self.words.split())


def paper(path: str) -> list[tuple[int, int]]:
    """Give the size of every page of a PDF. [points]"""
    return [(round(p.mediabox.width), round(p.mediabox.height)) for p in PdfReader(path).pages]


@needs_typst
def test_each_walk_has_a_page_a_pdf_and_a_text_and_all_are_listed(run: Run) -> None:
    walks = write_walks(rows(), rows(field="Gin 80", insects=60, healthy=60, lost=60))
    said, notices = run("report", walks, *RULE, "--out", "d")
    assert notices == ""
    names = ["Gin-80-2026-06-20", "Home-40-2026-06-20"]
    whole = {f"{name}.{end}" for name in names for end in ("html", "pdf", "txt")}
    assert files_in("d") == whole | {"index.html"}
    assert "2 reports, each as a page, as a PDF and as a short text." in said
    index = Page("d/index.html")
    assert set(index.links) == {f"{name}.{end}" for name in names for end in ("html", "pdf")}
    assert index.plain.index("Gin 80") < index.plain.index("Home 40")
    assert index.plain.index("TREAT".title()) < index.plain.index("Home 40")
    assert all(paper(f"d/{name}.pdf") == [LETTER] for name in names)


def test_page_and_text_say_what_the_call_says(run: Run) -> None:
    walks = write_walks(rows(field="Gin 80", insects=60, healthy=60, lost=60))
    run("report", walks, *RULE, "--out", "d", "--advisor", "Wen Adair", "--contact", "555-0142")
    text = Path("d/Gin-80-2026-06-20.txt").read_text(encoding="utf-8")
    assert text.startswith("Gin 80, Saturday 20 June: TREAT. Fleahoppers on 100 plants: 60")
    # 60 of 120 squares, beside the floor of week 2
    assert "50" in text.partition("Squares still good of 100: ")[2][:3]
    assert "floor 85" in text
    page = Page("d/Gin-80-2026-06-20.html").plain
    for words in ("Gin 80", "Treat", "60", "25", "Wen Adair", "555-0142"):
        assert words in page
        assert words.upper() in text.upper()


def test_only_the_walks_of_the_day_asked_for_are_told(run: Run) -> None:
    walks = write_walks(rows(), rows(on="2026-06-24"), rows(field="Gin", on="2026-06-24"))
    said, _ = run("report", walks, *RULE, "--out", "d", "--day", "2026-06-24")
    assert said.startswith("2 reports")
    assert {name.partition(".")[0] for name in files_in("d")} == {
        "Home-40-2026-06-24", "Gin-2026-06-24", "index",
    }  # fmt: skip


def test_a_day_without_a_walk_is_told_the_days_there_are(run: Run) -> None:
    walks = write_walks(rows(), rows(on="2026-06-24"))
    _, err = run("report", walks, *RULE, "--out", "d", "--day", "2026-06-22", status=2)
    assert "2026-06-20 to 2026-06-24, got 2026-06-22" in err
    assert not Path("d").exists()


def test_two_walks_of_a_field_are_two_reports(run: Run) -> None:
    run("report", write_walks(rows(), rows(on="2026-06-24")), *RULE, "--out", "d")
    assert {"Home-40-2026-06-20.html", "Home-40-2026-06-24.html"} < files_in("d")


def test_the_reports_are_in_spanish_if_asked(run: Run) -> None:
    walks = write_walks(rows(field="Gin", insects=60, healthy=60, lost=60), rows())
    run("report", walks, *RULE, "--out", "d", "--language", "es")
    for name in ("index", "Gin-2026-06-20", "Home-40-2026-06-20"):
        page = Page(f"d/{name}.html")
        assert page.lang == "es"
        assert "junio" in page.plain
        for english in ("June", "Look again", "squares", " plants", "Treat", "quarter"):
            assert english not in page.plain
    assert "junio" in Path("d/Gin-2026-06-20.txt").read_text(encoding="utf-8")


def test_reports_are_in_english_unless_asked(run: Run) -> None:
    run("report", write_walks(rows()), *RULE, "--out", "d")
    page = Page("d/Home-40-2026-06-20.html")
    assert page.lang == "en"
    assert "June" in page.plain


@needs_typst
def test_paper_is_as_asked_for(run: Run) -> None:
    run("report", write_walks(rows()), *RULE, "--out", "d", "--paper", "a4")
    assert paper("d/Home-40-2026-06-20.pdf") == [A4]


@needs_typst
def test_one_pdf_holds_all_and_the_list_opens_it_at_the_page(run: Run) -> None:
    walks = write_walks(rows(), rows(field="Gin"), rows(field="Mill"))
    said, _ = run("report", walks, *RULE, "--out", "d", "--one-pdf")
    assert {name for name in files_in("d") if name.endswith(".pdf")} == {"reports.pdf"}
    assert "reports.pdf" in said
    pages = [page.extract_text() for page in PdfReader("d/reports.pdf").pages]
    assert len(pages) == 3
    index = Page("d/index.html")
    linked = {}
    for page, pdf in zip(index.links[::2], index.links[1::2], strict=True):
        file, _, number = pdf.partition("#page=")
        assert file == "reports.pdf"
        linked[page] = pages[int(number) - 1]
    assert {name.partition("-2026")[0].replace("-", " ") for name in linked} == {
        "Home 40", "Gin", "Mill",
    }  # fmt: skip
    for page, told in linked.items():
        assert page.partition("-2026")[0].replace("-", " ") in told


@pytest.mark.usefixtures("no_typst")
@pytest.mark.parametrize("more", [[], ["--one-pdf"]])
def test_without_the_report_extra_there_are_pages_and_texts_and_that_is_said(
    run: Run, more: list[str]
) -> None:
    said, _ = run("report", write_walks(rows()), *RULE, "--out", "d", *more)
    assert files_in("d") == {"Home-40-2026-06-20.html", "Home-40-2026-06-20.txt", "index.html"}
    assert "-m pip install typst" in " ".join(said.split())
    assert "as a PDF" not in said
    assert Page("d/index.html").links == ["Home-40-2026-06-20.html"]
    assert "PDF" not in Page("d/index.html").plain


def test_a_field_with_a_boundary_has_its_sketch_area_and_grower(run: Run) -> None:
    fields = write_fields("Home 40", grower="Ines Halloway")
    walks = write_walks(rows(), rows(field="Gin"))
    _, notices = run("report", walks, *RULE, "--out", "d", "--fields", fields)
    assert notices.count("\n") == 1
    assert 'has no field named "Gin"' in notices
    bounded, bare = (Page(f"d/{n}-2026-06-20.html") for n in ("Home-40", "Gin"))
    assert "Ines Halloway" in bounded.plain
    assert "12" in bounded.plain.partition(" acres")[0][-4:]
    assert "acres" not in bare.plain
    assert "svg" in bounded.tags


def test_only_fields_of_the_day_are_missed_in_the_boundaries(run: Run) -> None:
    walks = write_walks(rows(), rows(field="Gin", on="2026-06-24"))
    words = ("report", walks, *RULE, "--out", "d", "--day", "2026-06-24")
    _, notices = run(*words, "--fields", write_fields("Gin"))
    assert notices == ""


def test_without_boundaries_nothing_is_said_of_them(run: Run) -> None:
    _, notices = run("report", write_walks(rows()), *RULE, "--out", "d")
    assert notices == ""
    assert "acres" not in Page("d/Home-40-2026-06-20.html").plain


def test_names_that_would_be_one_file_are_two_reports(run: Run) -> None:
    walks = write_walks(named("A/B"), named("A B"), named("a:b"), named("a-b"))
    run("report", walks, *RULE, "--out", "d")
    pages = {name for name in files_in("d") if name.endswith(".html")} - {"index.html"}
    assert len({page.lower() for page in pages}) == 4
    told = {Page(f"d/{page}").plain.partition("A/B")[1] for page in pages}
    assert "A/B" in told
    assert set(Page("d/index.html").links) >= pages


def test_hostile_names_are_shown_and_do_nothing(run: Run) -> None:
    names = ["<script>alert(1)</script>", '#panic("x")', "../../up", "CON", "$x$ *b* _c_", "%s{x}",
             "a\u202eb", "=1+1|x", "javascript:alert(1)"]  # fmt: skip
    said = ["--advisor", "<img src=x onerror=y>", "--contact", '"><script>']
    run("report", write_walks(*map(named, names)), *RULE, "--out", "in/d", *said)
    assert files_in("in") == {"d"}
    pages = [p for p in Path("in/d").glob("*.html") if p.name != "index.html"]
    assert len(pages) == len(names)
    index = Page("in/d/index.html")
    for page in [index, *map(Page, pages)]:
        assert not page.tags & {"script", "img", "iframe"}
    for name in (n for n in names if "\u202e" not in n):
        assert name in index.plain
    for link in index.links:
        assert not link.startswith(("javascript:", "/", "..", "http"))
        assert Path("in/d", link).is_file()


def test_a_name_of_which_nothing_is_seen_is_refused_or_reported(run: Run) -> None:
    """A table may have such a name by a slip of the keyboard."""
    walks = write_walks(named("\u200b"), rows())
    assert main(["report", walks, *RULE, "--out", "d"]) in (0, 3)


def test_a_long_name_in_any_script_is_reported_by_its_day(run: Run) -> None:
    names = ["棉" * 150, "x" * 150]
    run("report", write_walks(*map(named, names)), *RULE, "--out", "d")
    pages = {name for name in files_in("d") if name.endswith(".html")} - {"index.html"}
    assert len(pages) == 2
    assert all("2026-06-20" in page for page in pages)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([*RULE], "--out"),
        (["--guideline", "kansas", "--out", "d"], "--first-square --plantings"),
        ([*RULE, "--out", "d", "--day", "20 June"], "must be a date as YYYY-MM-DD"),
        ([*RULE, "--out", "d", "--language", "fr"], "'en', 'es'"),
        ([*RULE, "--out", "d", "--paper", "legal"], "'letter', 'a4'"),
        ([*RULE, "--out", "d", "--line", "31"], "--line must be"),
        ([*RULE, "--out", "walks.csv"], "--out must be a folder"),
    ],
)
def test_a_wrong_command_line_exits_with_2_and_writes_nothing(
    run: Run, words: list[str], told: str
) -> None:
    out, err = run("report", write_walks(rows()), *words, status=2)
    assert out == ""
    assert told in err
    assert files_in(".") == {"walks.csv"}


def test_a_name_that_is_taken_by_a_folder_stops_it_before_anything_is_written(run: Run) -> None:
    walks = write_walks(rows())
    run("report", walks, *RULE, "--out", "d")
    for name in sorted(files_in("d")):
        taken = Path("taken", name)
        taken.mkdir(parents=True)
        _, err = run("report", walks, *RULE, "--out", "taken", status=2)
        assert f"{taken} is a folder" in err
        assert files_in("taken") == {name}
        taken.rmdir()


def test_walks_that_are_called_as_a_report_are_not_written_over(run: Run) -> None:
    run("report", write_walks(rows()), *RULE, "--out", "d")
    (text,) = (name for name in files_in("d") if name.endswith(".txt"))
    mine = Path("walks.csv").rename(text).read_bytes()
    _, err = run("report", text, *RULE, "--out", ".", status=2)
    assert "--out must leave the files alone that are read" in err
    assert Path(text).read_bytes() == mine


def test_refused_walks_or_boundaries_exit_with_3_and_write_nothing(run: Run) -> None:
    Path("bad.csv").write_text(table(rows()).replace(",NW,1,1,", ",XX,1,1,"), encoding="utf-8")
    _, err = run("report", "bad.csv", *RULE, "--out", "d", status=3)
    assert err.startswith("bad.csv row 2, column quadrant: ")
    Path("bad.geojson").write_text("{", encoding="utf-8")
    walks = write_walks(rows())
    _, err = run("report", walks, *RULE, "--out", "d", "--fields", "bad.geojson", status=3)
    assert err.startswith("bad.geojson")
    assert not Path("d").exists()
