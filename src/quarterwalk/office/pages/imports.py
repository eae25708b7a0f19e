"""Pages on which files are handed in, and what is said of what was taken."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.html import format_html

from quarterwalk.field import acres_of
from quarterwalk.files import PlantingFile, WalkFile
from quarterwalk.files.boundaries import FieldFile
from quarterwalk.files.seen_table import SeenFile
from quarterwalk.office.forms.upload import UploadForm
from quarterwalk.office.pages.days import short_day
from quarterwalk.office.pages.may import May
from quarterwalk.office.pages.page import FormPage, Link, cancel
from quarterwalk.office.pages.sizes import size_said
from quarterwalk.office.queries.same_day import Beside
from quarterwalk.office.services.fields import Added
from quarterwalk.office.services.journal import ALREADY, ASIDE, HELD, Answer
from quarterwalk.office.services.seen import SeenTaken
from quarterwalk.office.services.walks import Imported

# Notices of one file that are told on the next page. [count]
_MOST_NOTICES = 8


@dataclass(frozen=True, slots=True)
class ImportKind:
    """One kind of file that may be handed in."""

    title: str
    said: str
    to: str


@dataclass(frozen=True, slots=True)
class ImportsPage:
    """Every kind of file that somebody may hand in."""

    title: str
    kinds: tuple[ImportKind, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """One problem of a file: where, and what is wrong there."""

    row: str
    column: str
    text: str


@dataclass(frozen=True, slots=True)
class FilePage:
    """A page with one file to hand in, and the problems of the last try."""

    form: FormPage
    accept: str
    faults: tuple[Fault, ...]
    more: int


_FIELDS = (
    "Boundaries",
    "Shapefile (zipped), GeoJSON, KML, KMZ or GeoPackage. One polygon a field.",
)
_PLANTINGS = ("Plantings", "CSV or XLSX, one row a field: planted, first square, bloom, treated.")
_WEATHER = ("Weather", "Lowest and highest temperatures at stations near by: days or hours.")
_SEEN = (
    "What was seen of the crop",
    "CSV or XLSX, a row a field and day: true leaves, nodes, plants with a square, white flowers.",
)
_WALKS = ("Walks", "CSV or XLSX, one row a plant.")
_LEADS = (
    ("fields-import", _FIELDS),
    ("plantings-import", _PLANTINGS),
    ("weather-import", _WEATHER),
    ("seen-import", _SEEN),
)
_JOURNAL = ("A phone's journal", "The file that a phone saved where there was no signal to send.")


def imports_page(may: May) -> ImportsPage:
    """List what may be handed in.

    Parameters
    ----------
    may : May
        By whom.

    Returns
    -------
    ImportsPage
    """
    kinds = list(_LEADS) if may.lead else []
    kinds += [("walks-import", _WALKS), ("journal-import", _JOURNAL)]
    return ImportsPage(
        "Import", tuple(ImportKind(title, said, reverse(name)) for name, (title, said) in kinds)
    )


def fields_page(form: UploadForm[Any]) -> FilePage:
    """Give the page for boundaries.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.

    Returns
    -------
    FilePage
    """
    said = (
        _FIELDS[1],
        "A field whose name is here already gets its new outline. No field is ever removed.",
    )
    return file_page(form, _FIELDS[0], said, ".zip,.geojson,.json,.kml,.kmz,.gpkg")


def plantings_page(form: UploadForm[Any]) -> FilePage:
    """Give the page for plantings.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.

    Returns
    -------
    FilePage
    """
    said = (
        "CSV or XLSX with the columns field, planted, first_square, bloom and treated, one row"
        " a field. Dates are written year first, such as 2026-06-20; a range as"
        " 2026-06-18/2026-06-22; several treatments with a space between.",
        "first_square may be blank where planted is given: with weather of the district it is"
        " worked out.",
        "The dates in the file take the place of those that are here.",
    )
    return file_page(form, _PLANTINGS[0], said, ".csv,.xlsx")


def seen_table_page(form: UploadForm[Any]) -> FilePage:
    """Give the page for what was seen of the crop.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.

    Returns
    -------
    FilePage
    """
    said = (
        "CSV or XLSX with the columns field and date, and what was looked at: true_leaves, nodes,"
        " plants and pinhead (those of them with a square), squaring_branches, bloom (1 or 0),"
        " nawf, note. A row a field and day, or several, such as one a quarter. An empty cell"
        " means not looked at.",
        "What the square checks of a walk counted comes with the walk and need not stand here.",
        "Rows that are here already are not taken twice.",
    )
    return file_page(form, _SEEN[0], said, ".csv,.xlsx")


def walks_page(form: UploadForm[Any]) -> FilePage:
    """Give the page for walks.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.

    Returns
    -------
    FilePage
    """
    said = (
        "CSV or XLSX, one row a plant, with the columns field, date, quadrant, plant, adults and"
        " nymphs, and where they were counted healthy, missing, blasted and flared."
        " An empty cell means not looked at.",
        "Walks that are here already are not taken twice.",
    )
    return file_page(form, _WALKS[0], said, ".csv,.xlsx")


def journal_page(form: UploadForm[Any]) -> FilePage:
    """Give the page for a phone's journal file.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.

    Returns
    -------
    FilePage
    """
    said = (
        "On the phone choose This phone, then save the journal as a file. Its name begins with"
        " quarterwalk and ends with ndjson.",
        "What is here already is not taken twice.",
    )
    return file_page(form, _JOURNAL[0], said, ".ndjson")


def file_page(form: UploadForm[Any], title: str, said: tuple[str, ...], accept: str) -> FilePage:
    """Give a page on which a file is handed in.

    Parameters
    ----------
    form : UploadForm
        With the problems of the last try.
    title : str
        What is handed in. [text]
    said : tuple of str
        What such a file holds.
    accept : str
        Endings of the files that may be chosen. [file name endings]

    Returns
    -------
    FilePage
    """
    above = Link("Import", reverse("imports"))
    faults = tuple(
        Fault(
            "" if problem.row is None else str(problem.row),
            problem.column or "",
            f"Must be {problem.expected}, got “{problem.value}”. {problem.hint}".strip(),
        )
        for problem in form.problems
    )
    page = FormPage(title, "Hand in", said=said, above=above, back=cancel(above))
    return FilePage(page, accept, faults, form.more)


def fields_taken(added: Added, told: FieldFile) -> Iterator[str]:
    """Say what became of a boundary file.

    Parameters
    ----------
    added : Added
        By field.
    told : FieldFile
        The file.

    Yields
    ------
    str
    """
    counts = ((added.new, "new"), (added.changed, "changed"), (added.same, "as before"))
    parts = [f"{len(names)} {word}" for names, word in counts if names]
    yield f"Fields taken from {short_name(told.file)}: {', '.join(parts)}."
    large = [size_said(field.name, acres_of(field.shape)) for field in told.fields]
    yield from some_notices([*filter(None, large), *told.notices])


def plantings_taken(names: Sequence[str], told: PlantingFile) -> Iterator[str]:
    """Say what became of a planting table.

    Parameters
    ----------
    names : sequence of str
        Fields whose dates it gave.
    told : PlantingFile
        The file.

    Yields
    ------
    str
    """
    noun = "field" if len(names) == 1 else "fields"
    yield f"Dates of {len(names)} {noun} taken. Calls are made anew by them."
    yield from some_notices(told.notices)


def seen_table_taken(done: SeenTaken, told: SeenFile) -> Iterator[str]:
    """Say what became of a table of what was seen.

    Parameters
    ----------
    done : SeenTaken
        What was taken.
    told : SeenFile
        The file.

    Yields
    ------
    str
    """
    said = f"{done.new} {'look' if done.new == 1 else 'looks'} taken"
    if done.here_already:
        said += f", {done.here_already} {'was' if done.here_already == 1 else 'were'} here already"
    if done.struck:
        said += f" ({done.struck} of them struck, and left so)"
    yield f"{said}. Where the stage is worked out, calls are made anew." if done.new else f"{said}."
    if done.blooming:
        whose = "1 field" if done.blooming == 1 else f"{done.blooming} fields"
        yield f"White flowers stand for the first bloom of {whose} now; calls are made anew there."
    yield from some_notices(told.notices)


def walks_taken(done: Imported, told: WalkFile) -> Iterator[str]:
    """Say what became of a walk table.

    Parameters
    ----------
    done : Imported
        What was taken.
    told : WalkFile
        The file.

    Yields
    ------
    str
    """
    count = len(done.walk_ids)
    yield f"{count} {'walk' if count == 1 else 'walks'} taken from {short_name(told.file)}."
    if done.here_already:
        yield f"{done.here_already} were here already and are left as they are."
    yield from some_notices(told.notices)


def beside_told(found: Sequence[Beside]) -> Iterator[str]:
    """Say which walks of the same field and day were here before some that came in.

    Parameters
    ----------
    found : sequence of Beside
        One for each field and day.

    Yields
    ------
    str
        With a link to the walk.
    """
    for each in found[:_MOST_NOTICES]:
        yield format_html(
            '<a href="{}">A walk of {} on {}</a> is here already; {}.'
            " Leave one of them out if both are the same walk.",
            reverse("walk", args=[each.walk_id]),
            each.field,
            short_day(each.on),
            "the new one holds" if each.new_holds else "it began later, and holds",
        )
    if len(found) > _MOST_NOTICES:
        yield f"And {len(found) - _MOST_NOTICES} more like these."


def journal_taken(answers: Sequence[Answer]) -> Iterator[str]:
    """Say what became of a journal file.

    Parameters
    ----------
    answers : sequence of Answer
        One for each line.

    Yields
    ------
    str
    """
    counts = Counter(answer.answer for answer in answers)
    yield f"{counts[HELD]} new entries taken; {counts[ALREADY]} were here already."
    if counts[ASIDE]:
        yield f"{counts[ASIDE]} can't be taken without a decision: they wait in the lead's inbox."


def some_notices(notices: Sequence[str]) -> Iterator[str]:
    """Give what is worth saying about a file, as far as it fits on a page.

    Parameters
    ----------
    notices : sequence of str
        All that is worth saying.

    Yields
    ------
    str
    """
    yield from map(short_name, notices[:_MOST_NOTICES])
    if len(notices) > _MOST_NOTICES:
        yield f"And {len(notices) - _MOST_NOTICES} more like these."


def short_name(text: str) -> str:
    """Take the folder out of a file's name where a text begins with one.

    Parameters
    ----------
    text : str
        Such as a file's name, or a notice. [text]

    Returns
    -------
    str
    """
    head, sep, rest = text.partition(": ")
    return f"{head.rpartition('/')[2]}{sep}{rest}"
