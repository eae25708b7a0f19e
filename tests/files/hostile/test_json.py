"""GeoJSON that is too deep, too large or holds no numbers is refused, not choked on."""

from __future__ import annotations

import json

import pytest

from quarterwalk.files.boundary_limits import (
    DEEPEST,
    MOST_ELEMENTS,
    MOST_FIELDS,
    MOST_POINTS,
    MOST_POINTS_A_FIELD,
    MOST_RINGS_A_FIELD,
)
from tests.files.drawings import LAT, LON, block, feature, geojson, problems, read


def with_corner(text: str) -> bytes:
    """Give a field with something else for the longitude of its first corner."""
    return geojson(feature([block()])).replace(f"{LON}".encode(), text.encode(), 1)


@pytest.mark.parametrize("bracket", [b"[", b'{"a":', b'[{"a":'])
def test_brackets_without_end_are_refused(bracket: bytes) -> None:
    (problem,) = problems(bracket * 300_000)
    assert str(DEEPEST) in problem.expected


def test_brackets_in_a_text_do_not_count() -> None:
    assert read(geojson(feature([block()], note='\\"' + "[{" * 1000))).fields


def test_many_empty_brackets_are_refused() -> None:
    (problem,) = problems(b"[" + b"[]," * MOST_ELEMENTS + b"[]]")
    assert f"{MOST_ELEMENTS:,}" in problem.expected


@pytest.mark.parametrize("start", [b'{"a": "', b'{"a": "' + b'\\"' * 1_000_000 + b"\\"])
def test_a_text_that_never_ends_is_refused(start: bytes) -> None:
    assert problems(start)


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-Infinity"])
def test_words_for_no_number_are_refused(text: str) -> None:
    (problem,) = problems(with_corner(text))
    assert "no number" in problem.value


@pytest.mark.parametrize("text", ["1e999", "-1e999", "9" * 400, "1" + "0" * 5000, "1e300"])
def test_numbers_beyond_the_globe_are_refused(text: str) -> None:
    (problem,) = problems(with_corner(text))
    assert (problem.row, problem.column) == (1, "geometry")


@pytest.mark.parametrize("text", ["null", "true", '"-101.9"', "[1]", "{}"])
def test_positions_that_are_no_numbers_are_refused(text: str) -> None:
    (problem,) = problems(with_corner(text))
    assert "numbers" in problem.expected


@pytest.mark.parametrize(
    "rings", [5, "text", {"a": 1}, [5], [[5]], [[[LON]]], [[[LON, LAT], 5]], [[[LON, LAT], None]]]
)
def test_rings_that_are_no_lists_of_positions_are_refused(rings: object) -> None:
    (problem,) = problems(geojson(feature(rings)))
    assert (problem.row, problem.column) == (1, "geometry")


@pytest.mark.parametrize(
    "content",
    [
        [],
        5,
        None,
        "text",
        {},
        {"type": "Topology"},
        {"type": ["Polygon"]},
        {"type": "FeatureCollection"},
        {"type": "FeatureCollection", "features": {}},
        {"type": "FeatureCollection", "features": [5]},
        {"type": "FeatureCollection", "features": []},
        {"type": "Feature"},
        {"type": "Feature", "geometry": []},
        {"type": "Feature", "geometry": {"type": "Circle"}},
        {"type": "Feature", "geometry": {"type": ["Polygon"]}},
        {"type": "Feature", "geometry": {"type": "Polygon"}},
        {"type": "Feature", "geometry": {"type": "GeometryCollection"}},
        {"type": "Feature", "geometry": {"type": "GeometryCollection", "geometries": []}},
        {"type": "Feature", "properties": [1], "geometry": None},
    ],
)
def test_json_that_is_no_boundary_is_refused(content: object) -> None:
    assert problems(json.dumps(content).encode())


@pytest.mark.parametrize("data", [b"", b"  \n", b"\xef\xbb\xbf", b"{", b"\x00", b"hello", b"\xff{"])
def test_what_is_no_json_is_refused(data: bytes) -> None:
    assert problems(data)


def test_letters_in_another_encoding_are_refused() -> None:
    (problem,) = problems('{"type": "Ñ"}'.encode("latin-1"))
    assert problem.expected == "UTF-8 text"


def test_too_many_features_are_refused() -> None:
    (problem,) = problems(geojson(*[feature([LON, LAT], "Point")] * (MOST_FIELDS + 1)))
    assert f"{MOST_FIELDS:,} features" in problem.expected


def test_too_many_points_of_a_field_are_refused() -> None:
    ring = [[LON, LAT]] * (MOST_POINTS_A_FIELD // 2 + 1)
    (problem,) = problems(geojson(feature([block()]), feature([ring, ring])))
    assert problem.row == 2
    assert f"{MOST_POINTS_A_FIELD:,} points" in problem.expected


def test_too_many_points_of_a_file_are_refused() -> None:
    ring = [[LON, LAT]] * MOST_POINTS_A_FIELD
    (problem,) = problems(geojson(*[feature([ring])] * (MOST_POINTS // MOST_POINTS_A_FIELD + 1)))
    assert f"{MOST_POINTS:,} points" in problem.expected


def test_too_many_rings_of_a_field_are_refused() -> None:
    (problem,) = problems(geojson(feature([block()] * (MOST_RINGS_A_FIELD + 1))))
    assert f"{MOST_RINGS_A_FIELD} parts and holes" in problem.expected
