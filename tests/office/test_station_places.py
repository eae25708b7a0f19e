"""Where stations lie: nothing is taken after which fields would go by none, or a wrong one."""

from __future__ import annotations

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.office.models import StationRow
from quarterwalk.office.queries.standing import why_no_stage
from quarterwalk.office.services.weather import remove_station
from tests.office.people import People
from tests.office.seasoned import DAY
from tests.office.weathered import NEAR, planted, station, weathered


def test_a_second_station_is_refused_while_no_place_is_known(people: People) -> None:
    weathered(people.near, station("weather", name="", place=None))
    with pytest.raises(RefusedInput, match="whose place is known"):
        weathered(people.near, station("weather (1)", name="", place=None))
    assert [row.station for row in StationRow.objects.all()] == ["weather"]


def test_a_file_of_two_stations_without_places_is_refused(people: People) -> None:
    with pytest.raises(RefusedInput, match="whose place is known"):
        weathered(people.near, station("A", place=None), station("B", place=None))
    assert not StationRow.objects.exists()


def test_beside_one_whose_place_is_known_it_is_taken(people: People) -> None:
    planted(people.home)
    weathered(people.near, station(), station("B", place=None))
    assert why_no_stage(people.near, DAY) == ""
    weathered(people.near, station("B", place=None))
    assert StationRow.objects.count() == 2


def test_a_station_that_lies_elsewhere_is_refused(people: People) -> None:
    weathered(people.near, station())
    with pytest.raises(RefusedInput, match="Gin Road.*take the station away first"):
        weathered(people.near, station(place=(NEAR[0] + 0.1, NEAR[1])))  # 9 km
    assert StationRow.objects.get().longitude == NEAR[0]
    weathered(people.near, station(place=(NEAR[0] + 0.04, NEAR[1])))  # 4 km: rounded
    assert StationRow.objects.get().longitude == NEAR[0] + 0.04


def test_it_is_said_why_no_field_goes_by_any(people: People) -> None:
    assert why_no_stage(people.near, DAY) == ""  # no field waits for weather
    planted(people.home)
    weathered(people.near, station(), station("B", place=None))
    assert why_no_stage(people.near, DAY) == ""
    remove_station(station=StationRow.objects.get(station="GIN"))
    weathered(people.near, station("C", days=(DAY, DAY)))
    assert why_no_stage(people.near, DAY).startswith("Weather of Gin Road must")
