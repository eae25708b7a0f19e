"""Stops and loops as GPX 1.1.

The rules are written here from the "GPX 1.1 Schema Documentation", 2004: which elements
there may be, in which order, and what a latitude, a longitude and a time may hold.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quarterwalk.files.gpx import layout_gpx
from tests.files.laid_out import at_the_corner, square
from tests.published.tables import read as published

SPACE = "{http://www.topografix.com/GPX/1/1}"
AT = datetime(2026, 6, 18, 6, 30, tzinfo=timezone(timedelta(hours=-5)))

ORDER = {row["element"]: row["holds"].split() for row in published("gpx_elements").rows}
MANY = {"wpt", "rte", "trk", "trkseg", "trkpt", "link"}


def faults(element: ET.Element) -> list[str]:
    """Name each breach of the schema in an element and all below it."""
    tag = element.tag.removeprefix(SPACE)
    children = [child.tag.removeprefix(SPACE) for child in element]
    allowed = ORDER.get(tag, [])
    found = [f"{tag} holds {child}" for child in children if child not in allowed]
    if not found and children != sorted(children, key=allowed.index):
        found.append(f"{tag}: {children} are out of order")
    found += [f"{tag}: two {c}" for c in set(children) - MANY if children.count(c) > 1]
    if tag in ("wpt", "trkpt"):
        lat, lon = float(element.attrib["lat"]), float(element.attrib["lon"])
        found += [] if -90 <= lat <= 90 and -180 <= lon < 180 else [f"{tag} at {lat}, {lon}"]
    if tag == "number" and not re.fullmatch(r"\d+", element.text or ""):
        found.append(f"number {element.text}")
    if tag == "time" and not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", element.text or ""):
        found.append(f"time {element.text}")
    return found + [what for child in element for what in faults(child)]


def read(text: str) -> ET.Element:
    return ET.fromstring(text.encode())


def texts(root: ET.Element, path: str) -> list[str | None]:
    return [found.text for found in root.findall(path.replace("/", "/" + SPACE).lstrip("/"))]


def test_it_keeps_the_rules_of_the_schema() -> None:
    root = read(layout_gpx([square(), square("North Fence")], at=AT))
    assert root.tag == f"{SPACE}gpx"
    assert root.attrib["version"] == "1.1"
    assert root.attrib["creator"] == "quarterwalk"
    assert not faults(root)


@pytest.mark.parametrize(
    "wrong",
    [
        '<wpt lat="1" lon="2"><type>stop</type><name>1 NW</name></wpt>',
        '<wpt lat="1" lon="180"/>',
        '<wpt lat="91" lon="0"/>',
        '<trk/><wpt lat="1" lon="2"/>',
        "<metadata><time>2026-06-18T06:30:00-05:00</time></metadata>",
        "<metadata><name>a</name><name>b</name></metadata>",
        "<trk><speed>3</speed></trk>",
    ],
)
def test_the_rules_find_what_breaks_them(wrong: str) -> None:
    assert faults(read(f'<gpx xmlns="{SPACE[1:-1]}">{wrong}</gpx>'))


def test_a_stop_is_named_by_its_number_and_quarter() -> None:
    root = read(layout_gpx([square()], at=AT))
    assert texts(root, "/wpt/name") == ["1 NW", "2 NE", "3 SE", "4 SW"]
    assert texts(root, "/wpt/desc") == ["5 plants"] * 4


def test_a_scout_who_reads_spanish_gets_spanish_but_the_quarters_stay_those_of_the_tables() -> None:
    root = read(layout_gpx([square()], at=AT, language="es"))
    assert texts(root, "/wpt/name") == ["1 NW", "2 NE", "3 SE", "4 SW"]
    assert texts(root, "/wpt/desc") == ["5 plantas"] * 4


def test_with_two_fields_a_stop_is_headed_by_its_field() -> None:
    root = read(layout_gpx([square(), square("North Fence")], at=AT))
    names = texts(root, "/wpt/name")
    assert names[0] == "Home 40 1 NW"
    assert names[4] == "North Fence 1 NW"


def test_each_loop_is_a_track_that_ends_where_it_began() -> None:
    root = read(layout_gpx([square()], at=AT))
    assert texts(root, "/trk/name") == ["Home 40, loop 1", "Home 40, loop 2"]
    for track in root.findall(f"{SPACE}trk"):
        points = [point.attrib for point in track.iter(f"{SPACE}trkpt")]
        assert len(points) == 4
        assert points[0] == points[-1]


def test_a_stop_lies_where_its_loop_passes() -> None:
    root = read(layout_gpx([square()], at=AT))
    passed = [point.attrib for point in root.iter(f"{SPACE}trkpt")]
    assert all(stop.attrib in passed for stop in root.iter(f"{SPACE}wpt"))


def test_half_past_six_in_the_morning_is_written_as_half_past_eleven_of_universal_time() -> None:
    assert texts(read(layout_gpx([square()], at=AT)), "/metadata/time") == ["2026-06-18T11:30:00Z"]


def test_a_time_without_its_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="must know its zone"):
        layout_gpx([square()], at=datetime(2026, 6, 18, 6, 30))  # noqa: DTZ001


def test_the_same_field_at_the_same_time_gives_the_same_text() -> None:
    assert layout_gpx([square()], at=AT) == layout_gpx([square()], at=AT.astimezone(UTC))


@given(st.text(st.characters(), min_size=1).filter(lambda text: bool(text.strip())))
def test_any_name_of_a_field_can_be_written_and_read_again(name: str) -> None:
    root = read(layout_gpx([square(name)], at=AT))
    assert not faults(root)


def test_marks_that_mean_something_in_xml_come_back_as_they_were() -> None:
    root = read(layout_gpx([square('R&B <40> "north" ñ')], at=AT))
    assert texts(root, "/metadata/name") == ['R&B <40> "north" ñ']


def test_a_place_on_the_meridian_180_is_written_from_its_western_side() -> None:
    layout = square()
    line = ((180.0, -16.5), (179.99, -16.5), (180.0, -16.5))
    on_it = replace(layout, loops=(replace(layout.loops[0], line=line),))
    root = read(layout_gpx([on_it], at=AT))
    assert not faults(root)
    assert {float(point.attrib["lon"]) for point in root.iter(f"{SPACE}trkpt")} == {-180, 179.99}


def test_a_loop_follows_a_stop_that_was_moved_by_a_hair_into_its_quarter() -> None:
    # a quarter's corner a third past a written place: the nearest one lies outside
    root = read(layout_gpx([at_the_corner(0.3e-7, 0.3e-7)], at=AT))
    (stop,) = root.iter(f"{SPACE}wpt")
    assert float(stop.attrib["lon"]) > -101.9
    assert float(stop.attrib["lat"]) > 33.45
    assert stop.attrib in [point.attrib for point in root.iter(f"{SPACE}trkpt")]
