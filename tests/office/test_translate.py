"""A boundary is kept to its last digit: office, sheet and phone lay out the same stops."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon

from quarterwalk.demo import demo_fields
from quarterwalk.field import Field, lay_out
from quarterwalk.office.models import District, FieldRow
from quarterwalk.office.services.fields import add_fields
from quarterwalk.office.translate import (
    boundary_text,
    to_field,
)
from tests.office.people import ZONE

DAY = date(2026, 6, 18)


def row_of(field: Field) -> FieldRow:
    longitude, latitude = field.gate or (None, None)
    return FieldRow(
        name=field.name, farm=field.farm, boundary=boundary_text(field), rows=field.rows,
        gate_longitude=longitude, gate_latitude=latitude,
    )  # fmt: skip


@pytest.fixture(scope="module", params=demo_fields(), ids=lambda field: field.name)
def drawn(request: pytest.FixtureRequest) -> Field:
    """Give each field of the demo in turn."""
    field: Field = request.param
    return field


@pytest.mark.django_db
def test_a_field_comes_back_to_the_last_digit_with_the_same_stops(drawn: Field) -> None:
    district = District.objects.create(name="Near", time_zone=ZONE)
    add_fields(district=district, fields=[drawn])
    back = to_field(FieldRow.objects.select_related("grower").get(district=district))
    assert back == drawn
    assert back.shape.wkb == drawn.shape.wkb
    assert lay_out(back, DAY).stops == lay_out(drawn, DAY).stops


degrees = st.floats(0.001, 0.02, allow_nan=False)


@given(
    west=st.floats(-179, 178, allow_nan=False),
    south=st.floats(-60, 60, allow_nan=False),
    wide=degrees,
    high=degrees,
    hole=st.booleans(),
)
def test_no_digit_of_a_corner_is_lost(
    west: float, south: float, wide: float, high: float, hole: bool
) -> None:
    east, north = west + wide, south + high
    shell = [(west, south), (east, south), (east, north), (west, north)]
    inner = [(west + wide / 3, south + high / 3), (west + wide / 3, south + high / 2),
             (west + wide / 2, south + high / 3)]  # fmt: skip
    shape = MultiPolygon([Polygon(shell, [inner] if hole else [])])
    field = Field("Home 80", shape, gate=(west, south), rows=wide)
    assert to_field(row_of(field)) == field
    assert to_field(row_of(field)).shape.wkb == shape.wkb
