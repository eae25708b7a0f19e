"""A card is one text: the same for the same field, day and rule, and small enough to fetch."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace
from datetime import date, datetime, timedelta, timezone
from fractions import Fraction
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import pytest
from shapely.geometry import Point, shape

from quarterwalk.call import Verdict
from quarterwalk.card import CardFault, LastCall, card_hash, make_card
from quarterwalk.crop import CropDates
from quarterwalk.demo import demo_fields, load_district
from quarterwalk.errors import LineOutsideRange
from quarterwalk.field import Plan, lay_out
from quarterwalk.guideline import HalfLine, load_guideline
from tests.card.ground import FIRST_SQUARE, ID, ON, about, card, content, laid_out

CENTRAL = timezone(timedelta(hours=-5))


def test_the_same_field_day_and_rule_make_the_same_bytes() -> None:
    again = replace(about(), layout=lay_out(demo_fields()[0], ON))
    assert make_card(again).bytes == card().bytes
    assert make_card(again).hash == card().hash


def test_another_day_is_another_card() -> None:
    assert card(layout=laid_out(on=ON + timedelta(days=1))).hash != card().hash


@pytest.mark.parametrize(
    "choice",
    [
        {"id": "k3f9m2q9"},
        {"layout": laid_out(1)},
        {"dates": CropDates(FIRST_SQUARE + timedelta(days=1))},
        {"line": Fraction(26)},
        {"closed_until": datetime(2026, 7, 1, 7, tzinfo=CENTRAL)},
        {"last": LastCall(date(2026, 6, 24), Verdict.HOLD)},
        {"language": "es"},
        {"zone": ZoneInfo("America/Chicago")},
    ],
    ids=lambda choice: next(iter(choice)),
)
def test_whatever_changes_the_walk_changes_the_card(choice: dict[str, object]) -> None:
    assert card(**choice).hash != card().hash  # type: ignore[arg-type]


def test_another_rule_is_another_card() -> None:
    assert len({card(name).hash for name in (None, "oklahoma", "kansas", "mid-coast")}) == 4


def test_the_hash_is_the_sha_256_of_the_bytes() -> None:
    made = card()
    assert made.hash == hashlib.sha256(made.bytes).hexdigest() == card_hash(made.bytes)


def test_a_card_is_written_in_one_way_only() -> None:
    text = card(language="es").bytes.decode()
    sorted_text = json.dumps(
        json.loads(text), sort_keys=True, separators=(",", ":"), ensure_ascii=False
    )
    assert text == sorted_text
    assert "después de" in card("oklahoma", language="es").bytes.decode()


@pytest.mark.parametrize("number", range(len(demo_fields())), ids=lambda n: demo_fields()[n].name)
def test_the_card_of_every_demo_field_is_small(number: int) -> None:
    own = load_district().fields[number]
    made = card(layout=laid_out(number), dates=own.dates, zone=ZoneInfo("America/Chicago"))
    assert len(made.bytes) < 45_000
    assert made.walkable


def test_a_card_says_whose_field_it_is_and_what_was_done_there() -> None:
    read = content(
        dates=CropDates(FIRST_SQUARE, treated=(date(2026, 6, 28), date(2026, 6, 25))),
        closed_until=datetime(2026, 7, 1, 7, tzinfo=CENTRAL),
        last=LastCall(date(2026, 6, 24), Verdict.LOOK_SOONER),
    )
    field = demo_fields()[0]
    assert (read["field"]["id"], read["field"]["name"]) == (ID, field.name)
    assert read["field"]["grower"] == field.grower
    assert read["treated"] == ["2026-06-25", "2026-06-28"]
    assert read["closed_until"] == "2026-07-01T07:00:00-05:00"
    assert read["last"] == {"on": "2026-06-24", "verdict": "look-sooner", "words": "Look sooner"}
    assert read["on"] == "2026-07-01"


def test_the_rule_of_the_card_can_be_named_next_year() -> None:
    rule = load_guideline("southern-high-plains")
    told = content()["guideline"]
    assert (told["name"], told["edition"], told["hash"]) == (rule.name, rule.edition, rule.hash)
    assert told["own"] is False


@pytest.mark.parametrize("number", [0, 2, 3])
def test_stops_lie_in_their_quarters_and_loops_pass_them(number: int) -> None:
    read = content(layout=laid_out(number))
    quarters = {name: shape(area) for name, area in read["quadrants"].items()}
    lines = {loop["loop"]: loop["line"] for loop in read["loops"]}
    assert [stop["stop"] for stop in read["stops"]] == list(range(1, 21))
    for stop in read["stops"]:
        assert quarters[stop["quadrant"]].contains(Point(stop["place"]))
        assert stop["place"] in lines[stop["loop"]]
    assert all(line[0] == line[-1] == read["entry"] for line in lines.values())


def test_the_phone_finds_each_stop_on_the_sketch_by_its_number() -> None:
    told = content()["sketch"]
    drawn = ElementTree.fromstring(told["svg"])
    numbers = [each.get("data-stop") for each in drawn.iter() if each.get("data-stop")]
    assert sorted(map(int, filter(None, numbers))) == list(range(1, 21))
    assert drawn.get("viewBox") == f"0 0 {told['width']} {told['height']}"


def test_a_field_without_a_guideline_or_dates_can_still_be_walked() -> None:
    for read in (content(None), content(dates=None), content(None, dates=None)):
        assert (read["walkable"], read["why_not"]) == (True, "")
        assert (read["weeks"], read["treat_days"]) == ([], [])
    assert "No guideline is chosen" in content(None)["texts"]["rule"]
    assert "No day of first square" in content(dates=None)["texts"]["rule"]
    assert content(None)["limits"]["needs"] is None
    assert content(None)["limits"]["insects"] == []


def test_a_guideline_that_counts_with_the_net_cannot_be_walked_and_says_why() -> None:
    made = card("tennessee-sweep")
    read = json.loads(made.bytes)
    assert not made.walkable
    assert not read["walkable"]
    assert read["method"] == "sweep"
    assert "the sweep net" in made.why_not == read["why_not"]
    assert read["weeks"] == []


def test_a_line_that_low_square_set_halves_is_left_to_the_office() -> None:
    rule = load_guideline("oklahoma")
    half = HalfLine(Fraction(8, 10), rule.sources[0])
    made = make_card(replace(about(), guideline=replace(rule, half_line=half)))
    read = json.loads(made.bytes)
    assert read["walkable"]
    assert read["weeks"] == []
    assert read["limits"]["insects"] == []
    assert "80 of 100" in read["texts"]["rule"]


def test_a_line_outside_the_published_range_is_refused() -> None:
    with pytest.raises(LineOutsideRange):
        card(line=Fraction(31))


def test_a_time_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="must have a zone"):
        about(closed_until=datetime(2026, 7, 1, 7))  # noqa: DTZ001 - what is refused here


@pytest.mark.parametrize("id", ["", "k3f9m2q", "k3f9m2ql", "K3F9M2Q8", "k3f9m2q8\n"])
def test_a_field_without_a_public_id_gets_no_card(id: str) -> None:
    with pytest.raises(CardFault, match=r"\$\.field\.id"):
        card(id=id)


@pytest.mark.parametrize("split", [(1,), (2, 3), (2, 2, 2)])
@pytest.mark.parametrize("plants", [1, 5, 12])
def test_any_plan_of_loops_makes_a_card(split: tuple[int, ...], plants: int) -> None:
    read = content(layout=lay_out(demo_fields()[0], ON, plan=Plan(split, plants)))
    assert len(read["stops"]) == 4 * sum(split)
    for week in read["squares"]:
        assert len(week["plants_a_stop"]) == sum(split)
        assert sum(week["plants_a_stop"]) == week["plants_a_quarter"]
