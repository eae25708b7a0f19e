"""Pages for growers, written into a folder: page, PDF and text of each walk, and their list."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from importlib.util import find_spec
from pathlib import Path

from quarterwalk.cli.command_lines import python_words
from quarterwalk.cli.folder import refuse_taken, write
from quarterwalk.cli.ground import known_as
from quarterwalk.cli.judged import Judgement
from quarterwalk.cli.screen import end_progress, say, tell_done
from quarterwalk.field import Field, Layout, lay_out
from quarterwalk.files.file_names import file_names
from quarterwalk.report import (
    Linked,
    Paper,
    Report,
    day_page,
    make_report,
    page,
    report_pdf,
    reports_pdf,
    short_text,
)

LIST, ALL_PDF = "index.html", "reports.pdf"
"""The page that lists the others, and the PDF of all."""

PAPERS = {"letter": Paper.LETTER, "a4": Paper.A4}
"""What ``--paper`` may be."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """How reports are wanted.

    Parameters
    ----------
    advisor, contact : str
        Who to ask and how; may be empty.
    language : str
        Of the reports and of the calls they tell.
    paper : Paper
        Of the PDFs.
    level : float
        Chance that a printed range holds the true value. [fraction]
    one_pdf : bool
        Whether the PDFs are wanted as one file.
    """

    advisor: str = ""
    contact: str = ""
    language: str = "en"
    paper: Paper = Paper.LETTER
    level: float = 0.90
    one_pdf: bool = False


def pdfs_can_be_made() -> bool:
    """Tell whether the report extra is installed.

    Returns
    -------
    bool
    """
    return find_spec("typst") is not None


def no_pdf() -> str:
    """Say that PDFs can't be made, and what brings them.

    Returns
    -------
    str
    """
    python = " ".join(python_words())
    return f"No PDFs: they need the report extra. To add it: {python} -m pip install typst"


def write_reports(
    judged: Sequence[Judgement],
    fields: Mapping[str, Field],
    folder: Path,
    wishes: Wishes,
    read: Sequence[str | None] = (),
) -> None:
    """Write a page, a PDF and a text of each walk, and a page that lists them.

    Parameters
    ----------
    judged : sequence of Judgement
        Walks and calls, worded in the language wished.
    fields : mapping of str to Field
        Boundaries by `known_as`; a walk of another field has no sketch.
    folder : Path
        Where; it is there. [folder name]
    wishes : Wishes
        How they are wanted.
    read : sequence of str or None
        Files that were read, and are not written over. [file names]

    Raises
    ------
    UsageError
        If a file can't stand where it is to, or would be written over one that was read.
    """
    days = (each.head.date.isoformat() for each in judged)
    names = file_names((each.head.field for each in judged), days)
    layouts: dict[str, Layout] = {}
    reports = []
    pdfs = pdfs_can_be_made()
    refuse_taken(folder, _written(names, pdfs=pdfs, one_pdf=wishes.one_pdf), read)
    try:
        for each, name in zip(judged, names, strict=True):
            report = _report(each, fields, layouts, wishes)
            write(folder / f"{name}.html", page(report))
            write(folder / f"{name}.txt", short_text(report) + "\n")
            reports.append(report)
            tell_done(len(reports), len(judged), "pages")
        if pdfs and wishes.one_pdf and reports:
            write(folder / ALL_PDF, reports_pdf(reports, paper=wishes.paper))
        elif pdfs:
            _write_pdfs(reports, names, folder, wishes.paper)
    finally:
        end_progress()
    linked = _linked(reports, names, pdfs=pdfs, one_pdf=wishes.one_pdf)
    write(folder / LIST, day_page(linked, language=wishes.language))


def _written(names: Sequence[str], *, pdfs: bool, one_pdf: bool) -> list[str]:
    """Name every file of some reports."""
    ends = (".html", ".txt", ".pdf") if pdfs and not one_pdf else (".html", ".txt")
    together = [LIST, ALL_PDF] if pdfs and one_pdf else [LIST]
    return [*(f"{name}{end}" for name in names for end in ends), *together]


def _write_pdfs(
    reports: Sequence[Report], names: Sequence[str], folder: Path, paper: Paper
) -> None:
    """Set the PDFs on all cores; typesetting leaves Python free meanwhile."""
    with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
        made = pool.map(partial(report_pdf, paper=paper), reports)
        for number, (name, pdf) in enumerate(zip(names, made, strict=True), start=1):
            write(folder / f"{name}.pdf", pdf)
            tell_done(number, len(reports), "PDFs")


def say_where(folder: Path, count: int, *, one_pdf: bool) -> None:
    """Say what was written and how to open it.

    Parameters
    ----------
    folder : Path
        Where the reports lie. [folder name]
    count : int
        How many there are. [count]
    one_pdf : bool
        Whether the PDFs are one file.
    """
    what = "1 report," if count == 1 else f"{count} reports, each"
    if not pdfs_can_be_made():
        say(f"{what} as a page and as a short text. {no_pdf()}")
    elif one_pdf:
        say(f"{what} as a page and as a short text; {ALL_PDF} is to print.")
    else:
        say(f"{what} as a page, as a PDF and as a short text.")
    say(f"Open {folder / LIST} in a browser: it lists them, the most urgent first.")


def _report(
    judged: Judgement, fields: Mapping[str, Field], layouts: dict[str, Layout], wishes: Wishes
) -> Report:
    name = known_as(judged.head.field)
    if name in fields and name not in layouts:
        layouts[name] = lay_out(fields[name], judged.head.date)
    return make_report(
        judged.head,
        judged.reading,
        judged.call,
        layout=layouts.get(name),
        advisor=wishes.advisor,
        contact=wishes.contact,
        level=wishes.level,
        language=wishes.language,
    )


def _linked(
    reports: Sequence[Report], names: Sequence[str], *, pdfs: bool, one_pdf: bool
) -> list[Linked]:
    linked = []
    for number, (report, name) in enumerate(zip(reports, names, strict=True), start=1):
        pdf = "" if not pdfs else f"{ALL_PDF}#page={number}" if one_pdf else f"{name}.pdf"
        linked.append(Linked(report, f"{name}.html", pdf))
    return linked
