"""Where rows meet core objects, and nowhere else."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date
from fractions import Fraction
from typing import Any

from shapely import MultiPolygon, Polygon
from shapely.geometry import shape

from quarterwalk.call import check_line
from quarterwalk.crop import CropDates
from quarterwalk.errors import LineOutsideRange
from quarterwalk.field import Field
from quarterwalk.guideline import Guideline, guideline_names, load_guideline
from quarterwalk.journal import CheckRecord
from quarterwalk.office.models import CheckRow, District, FieldRow, SeasonRow, WalkRow
from quarterwalk.plan import Stopping
from quarterwalk.walk import InsectCount, Method, PlantCheck, Quadrant, Sites, SquareCount, Walk


def to_field(row: FieldRow) -> Field:
    """Give a field as the core knows it: to the last digit as it was handed in.

    Parameters
    ----------
    row : FieldRow
        With its grower.

    Returns
    -------
    Field
    """
    gate = None
    if row.gate_longitude is not None and row.gate_latitude is not None:
        gate = (row.gate_longitude, row.gate_latitude)
    outline = shape(json.loads(row.boundary))
    if isinstance(outline, Polygon):
        outline = MultiPolygon([outline])
    if not isinstance(outline, MultiPolygon):
        raise TypeError(f"the boundary of {row.name} must be a polygon, got {outline.geom_type}.")
    return Field(
        name=row.name,
        shape=outline,
        gate=gate,
        rows=row.rows,
        grower=row.grower.name if row.grower else "",
        farm=row.farm,
    )


def boundary_text(field: Field) -> str:
    """Write a field's boundary so that `to_field` gives the very same one.

    Parameters
    ----------
    field : Field
        From a boundary file.

    Returns
    -------
    str
        GeoJSON geometry; numbers in the shortest form that reads back equal.
    """
    return json.dumps(field.shape.__geo_interface__, separators=(",", ":"))


def to_guideline(row: FieldRow) -> Guideline | None:
    """Give the rule that a field is judged by.

    Parameters
    ----------
    row : FieldRow
        The field.

    Returns
    -------
    Guideline or None
        None where nobody chose one, where the one chosen is no longer on the shelf, and
        where it no longer publishes the line that was chosen: a field without a rule gets
        no call until a lead chooses again, and stops no phone.
    """
    if row.guideline not in guideline_names():
        return None
    guideline, line = load_guideline(row.guideline), to_line(row)
    try:
        if line is not None:
            check_line(guideline, line)
    except LineOutsideRange:
        return None
    return guideline


def to_line(row: FieldRow) -> Fraction | None:
    """Give the line that was chosen inside the published range.

    Parameters
    ----------
    row : FieldRow
        The field.

    Returns
    -------
    Fraction or None
        [insects per 100]
    """
    return Fraction(row.line) if row.line else None


def to_stopping(row: District) -> Stopping | None:
    """Say for what the walks of a district may end early.

    Parameters
    ----------
    row : District
        The district.

    Returns
    -------
    Stopping or None
        None where they may not.
    """
    return Stopping(row.stopping) if row.stopping else None


def season_on(row: FieldRow, on: date) -> SeasonRow | None:
    """Find the season that a day belongs to.

    Parameters
    ----------
    row : FieldRow
        With its seasons.
    on : date
        The day.

    Returns
    -------
    SeasonRow or None
        That of the day's year.
    """
    return next((season for season in row.seasons.all() if season.year == on.year), None)


def to_dates(row: FieldRow, on: date) -> CropDates | None:
    """Give the crop's dates in the season that a day belongs to.

    Parameters
    ----------
    row : FieldRow
        With its seasons and treatments.
    on : date
        The day.

    Returns
    -------
    CropDates or None
        None while nobody has given the day of first square.
    """
    season = season_on(row, on)
    if season is None or season.first_square is None:
        return None
    return CropDates(
        season.first_square,
        season.first_square_latest,
        season.bloom,
        tuple(treatment.on for treatment in row.treatments.all()),
    )


def to_walk(row: WalkRow) -> Walk | None:
    """Give a walk as the core knows it.

    Parameters
    ----------
    row : WalkRow
        With its field and its checks.

    Returns
    -------
    Walk or None
        None where nobody knows yet which field it is of, where its opening was struck,
        and where no plant stands.
    """
    checks = [to_check(check, row.on) for check in row.checks.all()]
    if row.field is None or row.on is None or row.state in ("unopened", "void") or not checks:
        return None
    return Walk(
        field=row.field.name,
        date=row.on,
        checks=tuple(checks),
        id=row.label or row.walk_id,
        method=Method(row.method),
        sites=Sites(row.sites),
        plan=row.plan,
    )


def to_check(row: CheckRow, on: date | None) -> PlantCheck:
    """Give one plant as the core knows it.

    Parameters
    ----------
    row : CheckRow
        The plant.
    on : date or None
        The day of its walk.

    Returns
    -------
    PlantCheck
    """
    return PlantCheck(
        quadrant=Quadrant(row.quadrant),
        plant=row.plant,
        stop=row.stop,
        insects=_insects(row),
        squares=_squares(row),
        sweeps=row.sweeps,
        scout=row.scout,
        on=None if row.on == on else row.on,
        skipped=row.skipped,
        note=row.note,
    )


def from_check(check: CheckRecord, scout: str) -> dict[str, Any]:
    """Give the columns of a row for one plant of a walk's record.

    Parameters
    ----------
    check : CheckRecord
        The plant.
    scout : str
        What its scout is called in this walk; empty where nobody is named.

    Returns
    -------
    dict
        By the names of `CheckRow`.
    """
    insects, squares = check.insects, check.squares
    return {
        "on": check.on,
        "scout": scout,
        "quadrant": check.quadrant.value,
        "stop": check.stop,
        "plant": check.plant,
        "adults": None if insects is None else insects.adults,
        "nymphs": None if insects is None else insects.nymphs,
        "healthy": None if squares is None else squares.healthy,
        "missing": None if squares is None else squares.missing,
        "blasted": None if squares is None else squares.blasted,
        "flared": None if squares is None else squares.flared,
        "sweeps": check.sweeps,
        "skipped": check.skipped,
        "why": check.why or "",
        "note": check.note or "",
    }


def _insects(row: CheckRow) -> InsectCount | None:
    if row.adults is None or row.nymphs is None:
        return None
    return InsectCount(row.adults, row.nymphs)


def _squares(row: CheckRow) -> SquareCount | None:
    counts = (row.healthy, row.missing, row.blasted, row.flared)
    given = [count for count in counts if count is not None]
    return SquareCount(*given) if len(given) == len(counts) else None


def dates_given(dates: CropDates | None) -> Iterable[str]:
    """Write a crop's dates as plain text, for what is hashed.

    Parameters
    ----------
    dates : CropDates or None
        The dates.

    Returns
    -------
    iterable of str
    """
    if dates is None:
        return ()
    days = (dates.first_square, dates.first_square_latest, dates.bloom, *sorted(dates.treated))
    return tuple("" if day is None else day.isoformat() for day in days)
