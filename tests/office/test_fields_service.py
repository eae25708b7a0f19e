"""Fields: their outlines to the last digit, the rule and the dates they are judged by."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime
from types import MappingProxyType
from typing import Any

import pytest
from shapely import MultiPolygon, Polygon

from quarterwalk.crop import CropDates
from quarterwalk.errors import RefusedInput
from quarterwalk.field import Field, lay_out
from quarterwalk.files.plantings import Planting, PlantingFile
from quarterwalk.office.models import CallRow, FieldRow, Grower, SeasonRow, Treatment
from quarterwalk.office.services import fields as service
from quarterwalk.office.services.fields import SeasonDates
from quarterwalk.office.services.refused import ServiceRefused
from quarterwalk.office.translate import season_on, to_dates, to_field, to_guideline, to_line
from tests.office.people import People, square
from tests.office.sender import Sender

RING = [(-100.1, 33.1), (-100.094, 33.1), (-100.094 + 1e-13, 33.105), (-100.1, 33.105000000000004)]
NORTH = Field("North 80", MultiPolygon([Polygon(RING)]), (-100.1, 33.1), 12.5, "Ida Vane", "Vane")


def test_a_field_comes_out_as_it_went_in(people: People) -> None:
    hole = [(-100.098, 33.102), (-100.097, 33.102), (-100.097, 33.103)]
    odd = replace(NORTH, name="Odd", shape=MultiPolygon([Polygon(RING, [hole])]), gate=None,
                  rows=None, grower="", farm="")  # fmt: skip
    added = service.add_fields(district=people.near, fields=[NORTH, odd])
    assert added.new == ("North 80", "Odd")
    for field in (NORTH, odd):
        row = FieldRow.objects.select_related("grower").get(district=people.near, name=field.name)
        assert to_field(row) == field
        assert to_field(row).shape.wkb == field.shape.wkb
        assert lay_out(to_field(row), date(2026, 6, 18)) == lay_out(field, date(2026, 6, 18))


def test_the_same_file_again_changes_nothing(people: People) -> None:
    service.add_fields(district=people.near, fields=[NORTH])
    added = service.add_fields(district=people.near, fields=[NORTH])
    assert (added.new, added.changed, added.same) == ((), (), ("North 80",))
    assert FieldRow.objects.filter(district=people.near).count() == 3


def test_another_outline_is_told_as_a_change_and_no_field_goes(people: People) -> None:
    service.add_fields(district=people.near, fields=[NORTH])
    added = service.add_fields(district=people.near, fields=[replace(NORTH, rows=13.0)])
    assert added.changed == ("North 80",)
    assert FieldRow.objects.get(name="North 80").rows == 13.0
    assert FieldRow.objects.filter(district=people.near).count() == 3


def test_what_a_file_does_not_tell_stays(people: People) -> None:
    service.add_fields(district=people.near, fields=[NORTH])
    bare = Field("North 80", NORTH.shape)
    assert service.add_fields(district=people.near, fields=[bare]).same == ("North 80",)
    assert to_field(FieldRow.objects.get(name="North 80")) == NORTH


def test_fields_of_one_name_in_two_districts_are_two(people: People) -> None:
    for district in (people.near, people.far):
        service.add_fields(district=district, fields=[NORTH])
    growers = {row.grower for row in FieldRow.objects.filter(name="North 80")}
    assert len(growers) == 2
    assert Grower.objects.filter(district=people.near, name="Ida Vane").count() == 1


def test_long_names_are_kept(people: People) -> None:
    long = replace(NORTH, name="N" * 200, grower="G" * 200, farm="F" * 200)
    service.add_fields(district=people.near, fields=[long])
    assert to_field(FieldRow.objects.get(name="N" * 200)) == long


def test_a_boundary_that_is_no_polygon_is_not_read(people: People) -> None:
    people.home.boundary = json.dumps({"type": "Point", "coordinates": [0, 0]})
    with pytest.raises(TypeError):
        to_field(people.home)


# the rule


def test_a_field_is_judged_by_the_rule_that_was_chosen(people: People) -> None:
    assert to_guideline(people.home) is None
    service.set_rule(field=people.home, guideline="southern-high-plains", line="27.5")
    people.home.refresh_from_db()
    guideline = to_guideline(people.home)
    assert guideline is not None
    assert guideline.name == "southern-high-plains"
    assert to_line(people.home) == 27.5
    service.set_rule(field=people.home, guideline="", line="27.5")
    people.home.refresh_from_db()
    assert (to_guideline(people.home), to_line(people.home)) == (None, None)


@pytest.mark.parametrize(
    ("guideline", "line", "about"),
    [("nowhere", "", "guideline"), ("../oklahoma", "", "guideline"), ("oklahoma", "29.9", "line"),
     ("oklahoma", "45.1", "line"), ("oklahoma", "x", "line"), ("oklahoma", "1/0", "line"),
     ("oklahoma", "1e999999999", "line"), ("oklahoma", "nan", "line"), ("oklahoma", "-30", "line"),
     ("oklahoma", " 30", "line"), ("mid-coast", "14", "line")],
)  # fmt: skip
def test_a_rule_that_is_none_is_refused_by_its_place_on_the_form(
    people: People, guideline: str, line: str, about: str
) -> None:
    with pytest.raises(ServiceRefused) as refused:
        service.set_rule(field=people.home, guideline=guideline, line=line)
    assert refused.value.about == about
    people.home.refresh_from_db()
    assert people.home.guideline == ""


# the dates


def test_dates_are_those_of_the_days_season(people: People) -> None:
    told = SeasonDates(first_square=date(2026, 6, 8), first_square_latest=date(2026, 6, 10),
                       bloom=date(2026, 7, 1))  # fmt: skip
    treated = [date(2026, 6, 20), date(2026, 6, 12), date(2026, 6, 20)]
    service.set_dates(field=people.home, year=2026, dates=told, treated=treated)
    found = to_dates(people.home, date(2026, 6, 18))
    assert found == CropDates(date(2026, 6, 8), date(2026, 6, 10), date(2026, 7, 1),
                              (date(2026, 6, 12), date(2026, 6, 20)))  # fmt: skip
    assert to_dates(people.home, date(2027, 6, 18)) is None
    service.set_dates(field=people.home, year=2026, dates=told)  # treatments not told: they stay
    assert Treatment.objects.count() == 2
    service.set_dates(field=people.home, year=2026, dates=told, treated=[])
    assert not Treatment.objects.exists()


CONTRADICTIONS: list[tuple[dict[str, Any], list[date], str]] = [
    ({"bloom": date(2026, 7, 1)}, [], "first_square"),
    ({"first_square_latest": date(2026, 6, 9)}, [], "first_square"),
    ({"first_square": date(2026, 6, 8), "bloom": date(2026, 6, 8)}, [], "first_square"),
    ({"first_square": date(2026, 6, 8), "first_square_latest": date(2026, 6, 7)}, [],
     "first_square"),
    ({"planted": date(2026, 6, 8), "first_square": date(2026, 6, 8)}, [], "first_square"),
    ({"planted": date(2026, 5, 1), "replanted": date(2026, 6, 9),
      "first_square": date(2026, 6, 8)}, [], "first_square"),
    ({"planted": date(2026, 5, 8), "bloom": date(2026, 5, 9)}, [], "bloom"),
    ({"planted": date(2026, 5, 8), "bloom": date(2026, 6, 4)}, [], "bloom"),
    ({"planted": date(2026, 5, 8), "first_square": date(2026, 5, 21)}, [], "first_square"),
    ({"planted": date(2026, 5, 8), "first_square": date(2026, 6, 1),
      "bloom": date(2026, 6, 4)}, [], "bloom"),
    ({"planted": date(2026, 5, 8), "replanted": date(2026, 5, 28),
      "bloom": date(2026, 6, 20)}, [], "bloom"),
    ({"planted": date(2026, 5, 8), "replanted": date(2026, 5, 8)}, [], "replanted"),
    ({"first_square": date(2025, 6, 8)}, [], "first_square"),
    ({"planted": date(2027, 5, 1)}, [], "planted"),
    ({"first_square": date(2026, 6, 8)}, [date(2025, 6, 9)], "treated"),
    ({"variety": "x" * 81}, [], "variety"),
    ({"hail": "x" * 121}, [], "hail"),
]  # fmt: skip


def test_the_earliest_squares_and_flowers_that_can_be_are_taken(people: People) -> None:
    told = SeasonDates(
        planted=date(2026, 5, 8), first_square=date(2026, 5, 22), bloom=date(2026, 6, 5)
    )
    service.set_dates(field=people.home, year=2026, dates=told)
    assert SeasonRow.objects.get(field=people.home).bloom == date(2026, 6, 5)


@pytest.mark.parametrize(("told", "treated", "about"), CONTRADICTIONS)
def test_dates_that_contradict_each_other_are_refused(
    people: People, told: dict[str, Any], treated: list[date], about: str
) -> None:
    with pytest.raises(ServiceRefused) as refused:
        service.set_dates(field=people.home, year=2026, dates=SeasonDates(**told), treated=treated)
    assert refused.value.about == about
    assert not SeasonRow.objects.exists()


def test_other_dates_are_kept_as_another_call(bobs: Sender, people: People) -> None:
    bobs.send(*bobs.walk(people.home))
    assert CallRow.objects.count() == 1
    service.set_dates(
        field=people.home, year=2026, dates=SeasonDates(first_square=date(2026, 6, 8))
    )
    assert CallRow.objects.count() == 1  # the same dates: the same call
    service.set_dates(
        field=people.home, year=2026, dates=SeasonDates(first_square=date(2026, 6, 1))
    )
    assert CallRow.objects.count() == 2


def plantings(**by_name: Planting) -> PlantingFile:
    told = {name.replace("_", " "): planting for name, planting in by_name.items()}
    rows = {name: row for row, name in enumerate(told, 2)}
    return PlantingFile("plantings.csv", MappingProxyType(told), (), rows)


def planting(**more: Any) -> Planting:
    told = {"field": "Home 80", "planted": date(2026, 5, 1),
            "first_square": (date(2026, 6, 8), date(2026, 6, 8)), "treated": (date(2026, 6, 11),),
            "hail": (date(2026, 5, 20),), "water": "dryland", **more}  # fmt: skip
    return Planting(**told)


def test_a_planting_table_gives_the_dates_of_its_fields(people: People) -> None:
    told = service.set_plantings(district=people.near, plantings=plantings(Home_80=planting()))
    assert told == ("Home 80",)
    season = season_on(people.home, date(2026, 6, 18))
    assert season is not None
    assert (season.planted, season.hail, season.water) == (
        date(2026, 5, 1), "2026-05-20", "dryland",
    )  # fmt: skip
    dates = to_dates(people.home, date(2026, 6, 18))
    assert dates is not None
    assert dates.last_treated_before(date(2026, 6, 18)) == date(2026, 6, 11)


@pytest.mark.parametrize(
    ("odd", "column", "value"),
    [({"replanted": date(2026, 6, 9)}, "first_square", "2026-06-08"),
     ({"first_square": (date(2026, 6, 8), date(2027, 1, 2))}, "first_square",
      "2026-06-08/2027-01-02"),
     ({"variety": "x" * 90}, "variety", "x" * 90),
     ({"treated": (date(2025, 6, 11), date(2026, 7, 1))}, "treated", "2025-06-11 2026-07-01")],
)  # fmt: skip
def test_a_planting_table_with_one_fault_is_refused_whole(
    people: People, odd: dict[str, Any], column: str, value: str
) -> None:
    with pytest.raises(RefusedInput) as refused:
        service.set_plantings(
            district=people.near, plantings=plantings(East_80=planting(), Home_80=planting(**odd))
        )
    [problem] = refused.value.problems
    assert (problem.row, problem.column, problem.value) == (3, column, value)
    assert not SeasonRow.objects.exists()


def test_a_planting_of_another_districts_field_is_unknown(people: People) -> None:
    with pytest.raises(RefusedInput) as refused:
        service.set_plantings(district=people.near, plantings=plantings(Away_80=planting()))
    assert [(p.row, p.value) for p in refused.value.problems] == [(2, "Away 80")]
    assert not SeasonRow.objects.exists()


def test_a_field_is_closed_and_opened(people: People) -> None:
    until = datetime(2026, 6, 19, 12, tzinfo=UTC)
    service.close_field(field=people.home, until=until, why="sprayed")
    people.home.refresh_from_db()
    assert (people.home.closed_until, people.home.closed_why) == (until, "sprayed")
    service.open_field(field=people.home)
    people.home.refresh_from_db()
    assert (people.home.closed_until, people.home.closed_why) == (None, "")


def test_the_fields_of_these_tests_lie_where_they_are_drawn(people: People) -> None:
    assert json.loads(square(-100))["coordinates"][0][0] == [-100, 33.0]
    assert to_field(people.home).shape.is_valid
