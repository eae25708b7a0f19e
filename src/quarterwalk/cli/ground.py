"""Fields on the command line: their boundaries, laid out for a day, and how lengths are told."""

from __future__ import annotations

import os
import sys
import unicodedata
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from functools import partial

from quarterwalk.cli.certainty import range_at
from quarterwalk.cli.lengths import area_words
from quarterwalk.cli.screen import end_progress, tell_done
from quarterwalk.errors import UsageError, shown
from quarterwalk.field import Field, Layout, Plan, acres_of, lay_out
from quarterwalk.files.boundaries import FieldFile, read_fields
from quarterwalk.guideline import load_routine

# Under so many fields other processes are not worth their start. [count]
_WORTH_SHARING = 40


def chosen_fields(path: str) -> tuple[Field, ...]:
    """Read boundaries, saying on standard error what was mended or looks odd.

    Parameters
    ----------
    path : str
        A file, or ``-`` for standard input.

    Returns
    -------
    tuple of Field
    """
    return _read(path).fields


def asked_for(fields: Sequence[Field], names: Sequence[str] | None) -> Sequence[Field]:
    """Take the fields that were named, or all where none was.

    Parameters
    ----------
    fields : sequence of Field
        Of a file of boundaries.
    names : sequence of str or None
        What followed each ``--field``.

    Returns
    -------
    sequence of Field
        In the order of the names, each once.

    Raises
    ------
    UsageError
        If a name is none of the fields'.
    """
    if not names:
        return fields
    known = {field.name: field for field in fields}
    for name in names:
        if name not in known:
            there = ", ".join(known)
            raise UsageError(
                f'--field must name a field of the file, got "{shown(name)}": {there}.'
            )
    return [known[name] for name in dict.fromkeys(names)]


def _read(path: str) -> FieldFile:
    told = read_fields(path, stdin=sys.stdin.buffer if path == "-" else None)
    for notice in told.notices:
        print(notice, file=sys.stderr)
    return told


def fields_by_name(path: str | None, walked: Sequence[str]) -> dict[str, Field]:
    """Read boundaries for walks, saying on standard error which walked field has none.

    Parameters
    ----------
    path : str or None
        A file; None where no boundaries are given.
    walked : sequence of str
        Names of the fields that were walked.

    Returns
    -------
    dict of str to Field
        By their names as `known_as` spells them.
    """
    if path is None:
        return {}
    told = _read(path)
    fields = {known_as(field.name): field for field in told.fields}
    for name in dict.fromkeys(walked):
        if known_as(name) not in fields:
            print(
                f'{told.file}: has no field named "{shown(name)}"; what is said of its walks'
                " carries no area and no sketch.",
                file=sys.stderr,
            )
    return fields


def known_as(name: str) -> str:
    """Give the one spelling under which a field is looked up.

    Parameters
    ----------
    name : str
        As a table or a map has it.

    Returns
    -------
    str
        Accents joined to their letters, since some systems keep them apart.
    """
    return unicodedata.normalize("NFC", name)


def about(field: Field) -> str:
    """Say what is known of a field beside its name.

    Parameters
    ----------
    field : Field
        Its boundary.

    Returns
    -------
    str
        Its area, and its grower where somebody said.
    """
    area = area_words(acres_of(field.shape), metric=False)
    return f"{area}, {field.grower}" if field.grower else area


def laid_out(fields: Sequence[Field], on: date, plan: Plan) -> list[Layout]:
    """Lay fields out for a day, on all cores where there are many.

    Parameters
    ----------
    fields : sequence of Field
        The fields.
    on : date
        The day.
    plan : Plan
        Loops, stops and plants.

    Returns
    -------
    list of Layout
        In the order of the fields.
    """
    laid = []
    try:
        for layout in _each(fields, partial(lay_out, on=on, plan=plan)):
            laid.append(layout)
            tell_done(len(laid), len(fields), "fields")
    finally:
        end_progress()
    return laid


def _each(fields: Sequence[Field], lay: partial[Layout]) -> Iterator[Layout]:
    cores = os.cpu_count() or 1
    if len(fields) < _WORTH_SHARING or cores == 1:
        yield from map(lay, fields)
        return
    with ProcessPoolExecutor(min(cores, len(fields) // 10)) as pool:
        yield from pool.map(lay, fields, chunksize=5)


def size_notices(layouts: Sequence[Layout], parts_by: str) -> Iterator[str]:
    """Say which fields are too large for one walk, or small enough for fewer plants.

    Parameters
    ----------
    layouts : sequence of Layout
        The fields, laid out.
    parts_by : str
        What writes the parts of a large field.

    Yields
    ------
    str
        A sentence that names the field.
    """
    routine = load_routine()
    for layout in layouts:
        name = layout.field.name
        if layout.acres > routine.largest_field:
            yield (
                f"{name}: {layout.acres:.0f} acres are too many for one walk of"
                f" {routine.full_walk_plants} plants (over {routine.largest_field}). Walk it as"
                f" parts of at most {routine.largest_part} acres; {parts_by} writes such parts."
            )
        elif layout.acres < routine.small_field:
            yield f"{name}: {layout.acres:.1f} acres are few. {small_field_advice()}"


def small_field_advice() -> str:
    """Say how many plants do on a small field, and what that costs.

    Returns
    -------
    str
    """
    routine = load_routine()
    full, few = routine.full_walk_plants, routine.few_plants
    found = 20
    all_of_them, fewer = (range_at(plants, found) for plants in (full, few))
    return (
        f"{few} plants do there ({few * routine.plants_a_stop // full} a stop). It costs some"
        f" certainty: where {found} insects per 100 are found, {full} plants tell"
        f" {all_of_them}, {few} plants {fewer}."
    )
