"""Fields: their boundaries, the rule and the dates they are judged by, and when they are closed."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.db import transaction

from quarterwalk.call import check_line
from quarterwalk.call.figures import exact
from quarterwalk.crop import CropDateError, CropDates
from quarterwalk.errors import LineOutsideRange, Problem, UnknownGuideline
from quarterwalk.field import Field, acres_of
from quarterwalk.files import Planting, PlantingFile
from quarterwalk.files.refusal import refuse_if_any
from quarterwalk.guideline import load_guideline
from quarterwalk.office.models import District, FieldRow, Grower, SeasonRow, Treatment
from quarterwalk.office.services import calls
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.services.turn import take_turn
from quarterwalk.office.translate import boundary_text

# No crop squares, or blooms, so soon after planting in any heat (rules of this project, about
# half of what is common). [days]
_SQUARE_LEAST, _BLOOM_LEAST = 14, 28


@dataclass(frozen=True, slots=True)
class Added:
    """What became of the fields of a boundary file, by name."""

    new: tuple[str, ...]
    changed: tuple[str, ...]
    same: tuple[str, ...]


@transaction.atomic
def add_fields(*, district: District, fields: Sequence[Field]) -> Added:
    """Take over the fields of a boundary file; no field is ever taken away by one.

    Parameters
    ----------
    district : District
        Where they lie.
    fields : sequence of Field
        From `read_fields`, each of its own name; a field of a name that is here already gets
        its new outline, and keeps what the file does not tell.

    Returns
    -------
    Added
    """
    take_turn(district)
    here = {row.name: row for row in district.fields.select_related("grower")}
    growers = {grower.name: grower for grower in district.growers.all()}
    came: dict[str, list[str]] = {"new": [], "changed": [], "same": []}
    moved = []
    for field in fields:
        told = _columns(field, _grower(district, growers, field.grower))
        row = here.get(field.name)
        if row is None:
            FieldRow.objects.create(district=district, name=field.name, **told)
            came["new"].append(field.name)
        elif any(getattr(row, name) != value for name, value in told.items()):
            FieldRow.objects.filter(pk=row.pk).update(**told)
            moved.append(row)
            came["changed"].append(field.name)
        else:
            came["same"].append(field.name)
    calls.keep_for_fields(moved)  # another outline may lie nearer to another station
    return Added(**{how: tuple(names) for how, names in came.items()})


def _columns(field: Field, grower: Grower | None) -> dict[str, object]:
    """Give the columns that a boundary file tells; what it leaves out is not in them."""
    told: dict[str, object] = {
        "boundary": boundary_text(field),
        "acres": acres_of(field.shape),
        "farm": field.farm,
        "grower": grower,
        "rows": field.rows,
    }
    if field.gate is not None:
        told["gate_longitude"], told["gate_latitude"] = field.gate
    return {name: value for name, value in told.items() if value not in (None, "")}


def _grower(district: District, growers: dict[str, Grower], name: str) -> Grower | None:
    if not name:
        return None
    if name not in growers:
        growers[name] = Grower.objects.create(district=district, name=name)
    return growers[name]


@transaction.atomic
def set_rule(*, field: FieldRow, guideline: str, line: str) -> None:
    """Say by which guideline a field is judged, and at which line inside its range.

    Parameters
    ----------
    field : FieldRow
        The field.
    guideline : str
        Its name on the shelf; empty for none.
    line : str
        Insects per 100; empty takes the lower end of the range.

    Raises
    ------
    ServiceRefused
        If there is no such guideline, or it does not publish such a line.
    """
    _refuse_rule(guideline, line)
    take_turn(field.district)  # a batch that makes a call meanwhile would not see the new rule
    _put_rule([field], guideline, line)


@transaction.atomic
def set_rule_for_rest(*, field: FieldRow, guideline: str, line: str) -> int:
    """Say by which guideline a field is judged, and with it all others that have none.

    Parameters
    ----------
    field : FieldRow
        The field.
    guideline : str
        Its name on the shelf.
    line : str
        Insects per 100; empty takes the lower end of the range.

    Returns
    -------
    int
        How many others it was. [fields]

    Raises
    ------
    ServiceRefused
        As `set_rule`; then no field has another rule than before.
    """
    _refuse_rule(guideline, line)
    take_turn(field.district)
    rest = list(field.district.fields.filter(guideline="").exclude(pk=field.pk))
    _put_rule([field, *rest], guideline, line)
    return len(rest)


def _put_rule(fields: Sequence[FieldRow], guideline: str, line: str) -> None:
    rows = FieldRow.objects.filter(pk__in=[field.pk for field in fields])
    rows.update(guideline=guideline, line=line if guideline else "")
    calls.keep_for_fields(fields)


def _refuse_rule(guideline: str, line: str) -> None:
    try:
        found = load_guideline(guideline) if guideline else None
        value = exact(line) if line else None
        if value is not None and found is not None:
            check_line(found, value)
    except UnknownGuideline as error:
        raise ServiceRefused(f"{str(error)[:1].upper()}{str(error)[1:]}", "guideline") from error
    except LineOutsideRange as error:
        raise ServiceRefused(
            f"The line must be {error.allowed}, got {error.line}.", "line"
        ) from error
    except ValueError:
        raise ServiceRefused(f'The line must be a number, got "{line}".', "line") from None


@dataclass(frozen=True, slots=True)
class SeasonDates:
    """What is known of one field's season; None and empty where nobody said."""

    planted: date | None = None
    first_square: date | None = None
    first_square_latest: date | None = None
    bloom: date | None = None
    variety: str = ""
    water: str = ""
    seed_treatment: str = ""
    replanted: date | None = None
    hail: str = ""


@transaction.atomic
def set_dates(
    *, field: FieldRow, year: int, dates: SeasonDates, treated: Sequence[date] | None = None
) -> None:
    """Say what is known of a field's season.

    Parameters
    ----------
    field : FieldRow
        The field.
    year : int
        The season's year.
    dates : SeasonDates
        Its dates; they take the place of those before.
    treated : sequence of date or None
        Days of treatment in this year, in place of those before; None leaves them.

    Raises
    ------
    ServiceRefused
        If the dates contradict each other.
    """
    take_turn(field.district)
    if _put_dates(field, year, dates, treated):
        calls.keep_for_fields([field])


def _put_dates(
    field: FieldRow, year: int, dates: SeasonDates, treated: Sequence[date] | None
) -> bool:
    """Keep dates without the calls; tell whether they are others than before."""
    _refuse_season(year, dates, treated or ())
    values = _values(dates)
    sprayed = Treatment.objects.filter(field=field, on__year=year)
    days = set(sprayed.values_list("on", flat=True))
    if SeasonRow.objects.filter(field=field, year=year, **values).exists() and (
        treated is None or days == set(treated)
    ):
        return False  # a table that comes again makes no call anew
    SeasonRow.objects.update_or_create(field=field, year=year, defaults=values)
    if treated is not None:
        sprayed.delete()
        Treatment.objects.bulk_create(Treatment(field=field, on=on) for on in sorted(set(treated)))
    return True


def _values(dates: SeasonDates) -> dict[str, object]:
    return {name: getattr(dates, name) for name in SeasonDates.__slots__}


def _refuse_season(year: int, dates: SeasonDates, treated: Sequence[date]) -> None:
    _refuse_contradictions(year, dates, treated)
    _refuse_too_long(_values(dates))


def _refuse_contradictions(year: int, dates: SeasonDates, treated: Sequence[date]) -> None:
    for name in ("planted", "first_square", "first_square_latest", "bloom", "replanted"):
        day = getattr(dates, name)
        if day is not None and day.year != year:
            raise ServiceRefused(f"This is the season of {year}, got {day.isoformat()}.", name)
    for day in treated:
        if day.year != year:
            raise ServiceRefused(f"This is the season of {year}, got {day.isoformat()}.", "treated")
    _refuse_too_soon(dates)
    first = dates.first_square
    if first is None:
        _refuse_without_first_square(dates)
        return
    try:
        CropDates(first, dates.first_square_latest, dates.bloom)
    except CropDateError as error:
        raise ServiceRefused(f"{str(error)[:1].upper()}{str(error)[1:]}", "first_square") from error


def _refuse_too_soon(dates: SeasonDates) -> None:
    """Refuse days that no crop reaches so soon after planting: one of the two is a slip."""
    once, again = dates.planted, dates.replanted
    if once is not None and again is not None and again <= once:
        raise ServiceRefused(
            f"Planted again must come after planting ({once.isoformat()}).", "replanted"
        )
    planted = again or once
    if planted is None:
        return
    told = (
        ("First square", dates.first_square, "first_square", _SQUARE_LEAST),
        ("First bloom", dates.bloom, "bloom", _BLOOM_LEAST),
    )
    for event, day, name, least in told:
        if day is not None and (day - planted).days < least:
            after = f"at least {least} days after planting ({planted.isoformat()})"
            raise ServiceRefused(f"{event} must come {after}.", name)


def _refuse_without_first_square(dates: SeasonDates) -> None:
    """Refuse what says nothing without first square; with planting it may be worked out."""
    planted = dates.replanted or dates.planted
    if dates.first_square_latest is not None or (dates.bloom is not None and planted is None):
        raise ServiceRefused("Give the day of first square too.", "first_square")


def _refuse_too_long(values: Mapping[str, object]) -> None:
    for name, value in values.items():
        most = getattr(SeasonRow._meta.get_field(name), "max_length", None)
        if isinstance(value, str) and most is not None and len(value) > most:
            raise ServiceRefused(f"At most {most} letters, got {len(value)}.", name)


@transaction.atomic
def set_plantings(*, district: District, plantings: PlantingFile) -> tuple[str, ...]:
    """Take over the dates of a planting table: all of it, or nothing.

    Parameters
    ----------
    district : District
        Whose fields they are.
    plantings : PlantingFile
        From `read_plantings`.

    Returns
    -------
    tuple of str
        The fields whose dates it gave.

    Raises
    ------
    RefusedInput
        If it names a field that is not here, or tells what can't be of one.
    """
    here = {row.name: row for row in district.fields.all()}
    refuse_if_any([*_plantings_wrong(plantings, here)])
    take_turn(district)
    others = [
        here[name]
        for name, each in plantings.plantings.items()
        if _put_dates(here[name], _year_of(each), _season(each), each.treated)
    ]
    calls.keep_for_fields(others)
    return tuple(plantings.plantings)


def _plantings_wrong(plantings: PlantingFile, here: Collection[str]) -> Iterator[Problem]:
    """Find the rows of fields that are not here, and of what can't be of one season."""
    for name, each in plantings.plantings.items():
        row = plantings.rows.get(name)
        if name not in here:
            expected = "the name of a field of this office"
            yield Problem(plantings.file, row, "field", name, expected)
            continue
        try:
            _refuse_season(_year_of(each), _season(each), each.treated)
        except ServiceRefused as refused:
            column = refused.about.removesuffix("_latest")
            told = getattr(each, column)
            expected = "a shorter text" if isinstance(told, str) else "a day that fits the season"
            value = _cell(told, "/" if column == "first_square" else " ")
            yield Problem(plantings.file, row, column, value, expected, str(refused))


def _cell(told: str | date | Sequence[date] | None, between: str) -> str:
    """Write what a cell gave as it stands in a table; a range of one day is that day."""
    if told is None or isinstance(told, str):
        return told or ""
    days = [told] if isinstance(told, date) else told
    return between.join(sorted({day.isoformat() for day in days}))


def _year_of(planting: Planting) -> int:
    """Give the season of a planting: that of its first square, else of its planting."""
    if planting.first_square is not None:
        return planting.first_square[0].year
    if planting.stand_planted is None:
        raise ValueError(f"{planting.field} must give first square or planting.")
    return planting.stand_planted.year


def _season(planting: Planting) -> SeasonDates:
    first, last = planting.first_square or (None, None)
    return SeasonDates(
        planted=planting.planted,
        first_square=first,
        first_square_latest=None if last == first else last,
        bloom=planting.bloom,
        variety=planting.variety,
        water=planting.water,
        seed_treatment=planting.seed_treatment,
        replanted=planting.replanted,
        hail=" ".join(day.isoformat() for day in planting.hail),
    )


def close_field(*, field: FieldRow, until: datetime, why: str = "") -> None:
    """Close a field: no phone opens a walk in it before the time that is given.

    Parameters
    ----------
    field : FieldRow
        The field.
    until : datetime
        When it opens, as the label or the sign says, with a zone.
    why : str
        Anything to add.
    """
    FieldRow.objects.filter(pk=field.pk).update(closed_until=until, closed_why=why)


def open_field(*, field: FieldRow) -> None:
    """Open a field that was closed.

    Parameters
    ----------
    field : FieldRow
        The field.
    """
    FieldRow.objects.filter(pk=field.pk).update(closed_until=None, closed_why="")
