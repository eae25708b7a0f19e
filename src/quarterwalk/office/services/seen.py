"""What people saw of a field's crop: noted, brought as a table, and struck where it was wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import asdict, dataclass
from datetime import date

from django.db import transaction

from quarterwalk.crop import Seen
from quarterwalk.errors import Problem
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.files.seen_table import SeenFile, SeenLine, row_faults
from quarterwalk.office import clock
from quarterwalk.office.crop_clocks import counts_as_bloom
from quarterwalk.office.models import District, FieldRow, Person, SeenRow
from quarterwalk.office.services import calls
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate import season_on
from quarterwalk.office.translate_season import SIGNS, from_seen, stand_planted, to_seen

# As a note of a journal. [characters]
_LONGEST_NOTE = 500


@transaction.atomic
def note_seen(*, field: FieldRow, seen: Seen, by: Person, looked_at: int | None = None) -> SeenRow:
    """Take over what somebody saw of a field's crop.

    Parameters
    ----------
    field : FieldRow
        The field.
    seen : Seen
        What they saw, and on which day.
    by : Person
        Who says so.
    looked_at : int or None
        Plants that other counts than squares are the mean of. [count]

    Returns
    -------
    SeenRow

    Raises
    ------
    ServiceRefused
        If nothing was seen, it can't be, or the day is not in the season.
    """
    told = from_seen(seen)
    told["plants"] = told["plants"] or looked_at
    faults = row_faults(told)
    if "nawf" in faults:
        raise ServiceRefused(faults["nawf"].hint, "nawf")
    if faults:
        raise ServiceRefused("Fill in one of the counts at least.")
    wrong = _wrong_day(field, seen.on)
    if wrong:
        raise ServiceRefused(wrong, "on")
    take_turn(field.district)
    row = SeenRow.objects.create(field=field, by=by, at=clock.now(), **told)
    calls.keep_for_looks([row])
    return row


def _wrong_day(field: FieldRow, on: date) -> str:
    """Say why nobody can have seen the crop on a day; empty where somebody can."""
    if on > clock.today(field.district):
        return "This day is still to come."
    season = season_on(field, on)
    planted = stand_planted(season)
    if planted is not None and on <= planted:
        return f"The crop was planted on {planted.isoformat()}."
    known = planted is not None or (season is not None and season.first_square is not None)
    if not known and on.year != clock.today(field.district).year:
        # no page would show it, and nobody could strike it
        return f"Nothing is known of a season of {on.year} in this field. Is the year right?"
    return ""


@dataclass(frozen=True, slots=True)
class SeenTaken:
    """What became of the rows of a table: how many came, were here, and were struck here.

    Parameters
    ----------
    new, here_already, struck : int
        [rows]
    blooming : int
        Fields for whose first bloom, which was not given, white flowers of new rows stand.
        [fields]
    """

    new: int
    here_already: int
    struck: int
    blooming: int = 0


@transaction.atomic
def import_seen(*, district: District, seen: SeenFile, by: Person) -> SeenTaken:
    """Take over a table of what was seen: every row, or none.

    Parameters
    ----------
    district : District
        Where it was seen.
    seen : SeenFile
        From `read_seen`.
    by : Person
        Who brings it.

    Returns
    -------
    SeenTaken
        A row that is here already, struck ones among them, is left as it is; two rows of a
        table that say the same are two.

    Raises
    ------
    RefusedInput
        If a row is of a field that is not here, or of a day on which nobody can have seen it.
    """
    take_turn(district)
    fields = {row.name: row for row in district.fields.prefetch_related("seasons")}
    refuse_if_any(list(_problems(seen, fields)))
    here = _here([fields[line.field].pk for line in seen.lines])
    told, now = Counter[bool](), clock.now()
    rows = []
    for line in seen.lines:
        row = SeenRow(
            field=fields[line.field], on=line.on, by=by, at=now, note=line.note, **asdict(line.told)
        )
        known = here.get(_content(row))
        if known:
            told[known.pop()] += 1
        else:
            rows.append(row)
    SeenRow.objects.bulk_create(rows)
    calls.keep_for_looks(rows)
    blooming = {row.field_id for row in rows if _stands_for_bloom(row)}
    return SeenTaken(len(rows), told.total(), told[True], len(blooming))


def _stands_for_bloom(row: SeenRow) -> bool:
    season = season_on(row.field, row.on)
    return season is not None and counts_as_bloom(season, to_seen(row.on, [row]))


def _problems(seen: SeenFile, fields: dict[str, FieldRow]) -> Iterator[Problem]:
    for line in seen.lines:
        field = fields.get(line.field)
        if field is None:
            yield _problem(seen, line, "field", "the name of a field of this office")
            continue
        wrong = _wrong_day(field, line.on)
        if wrong:
            yield _problem(seen, line, "date", "a day on which the crop could be seen", wrong)
        if len(line.note) > _LONGEST_NOTE:
            yield _problem(seen, line, "note", f"a text of at most {_LONGEST_NOTE} characters")


def _problem(seen: SeenFile, line: SeenLine, column: str, expected: str, hint: str = "") -> Problem:
    value = {"field": line.field, "date": line.on.isoformat(), "note": line.note}[column]
    return Problem(seen.file, line.row, column, value, expected, hint)


_Content = tuple[object, ...]
"""All that one row says; the same again is the same row."""


def _content(row: SeenRow) -> _Content:
    return (row.field_id, row.on, row.note, *(getattr(row, sign) for sign in SIGNS))


def _here(fields: Collection[int]) -> dict[_Content, list[bool]]:
    """Give the rows that are here of some fields: for each, whether it was struck."""
    found: dict[_Content, list[bool]] = {}
    for row in SeenRow.objects.filter(field__in=set(fields)):
        found.setdefault(_content(row), []).append(row.struck_at is not None)
    for known in found.values():
        known.sort(reverse=True)  # taken from the end: what counts is found first
    return found


@transaction.atomic
def strike_seen(*, seen: SeenRow, by: Person) -> None:
    """Strike what somebody noted: it counts nowhere, and stays to read.

    Parameters
    ----------
    seen : SeenRow
        Which.
    by : Person
        Who strikes it.
    """
    take_turn(seen.field.district)
    struck = SeenRow.objects.filter(pk=seen.pk, struck_at=None)
    if struck.update(struck_at=clock.now(), struck_by=by):
        calls.keep_for_looks([seen])
