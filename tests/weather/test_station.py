"""How far a station is from a field."""

from __future__ import annotations

import pytest

from quarterwalk.weather import Station, by_distance
from tests.published.tables import read

AIRPORTS = next(row for row in read("geodesic_lengths").rows if row["name"] == "two airports")


def at(name, *place):
    return Station(name, place=place)


def test_a_degree_of_latitude_is_some_hundred_and_eleven_kilometres():
    for south in (0, 25, 33, 45, 60, 89):
        km = at("south", -101.9, south).distance_km((-101.9, south + 1))
        assert 110.5 < km < 111.7


def test_two_known_places_are_as_far_apart_as_published():
    one, other = (tuple(map(float, place.split())) for place in AIRPORTS["places"].split(","))
    km = Station("one", place=one).distance_km(other)
    assert km == pytest.approx(float(AIRPORTS["metres"]) / 1000, abs=1e-5)


def test_the_distance_is_the_same_both_ways():
    south, north = (-101.9, 33.6), (-101.8, 35.2)
    there, back = at("a", *south).distance_km(north), at("b", *north).distance_km(south)
    assert there == pytest.approx(back)


def test_across_the_day_line_is_not_round_the_globe():
    assert at("west", 179.9, 0).distance_km((-179.9, 0)) == pytest.approx(22.26, abs=0.01)


def test_a_place_that_nobody_told_has_no_distance():
    assert Station("unknown").distance_km((-101.9, 33.6)) is None


def test_a_station_without_a_name_goes_by_its_id():
    assert Station("US0042").label == "US0042"
    assert Station("US0042", "Home place").label == "Home place"


def test_stations_come_in_order_the_nearest_first_and_unknown_places_left_out():
    stations = [at("far", -103, 33), Station("unknown"), at("near", -102, 33.5)]
    ordered = by_distance(stations, (-101.9, 33.6))
    assert [station.id for station, _ in ordered] == ["near", "far"]
    assert ordered[0][1] < ordered[1][1]


def test_stations_in_one_place_come_by_their_ids():
    stations = [at("b", -102, 33), at("a", -102, 33)]
    assert [station.id for station, _ in by_distance(stations, (-102, 33))] == ["a", "b"]
