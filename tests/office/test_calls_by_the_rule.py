"""The office's call is the core's call: by the rule's own table, and as the command prints it."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from quarterwalk.cli import main
from quarterwalk.demo import PLANTINGS, WALKS, demo_fields, load_district, make_season, write_season
from quarterwalk.files import read_plantings, read_walks
from quarterwalk.office.models import CallRow, FieldRow, WalkRow
from quarterwalk.office.services import calls, walks
from quarterwalk.office.services.fields import (
    SeasonDates,
    add_fields,
    set_dates,
    set_plantings,
    set_rule,
)
from tests.office.people import People, made_ready
from tests.office.seasoned import DAY, FIRST_SQUARE, walk_in

pytestmark = pytest.mark.django_db


def called(walk_id: str) -> calls.Judged:
    judged = calls.call_for(WalkRow.objects.get(walk_id=walk_id))
    assert judged is not None
    return judged


def kept(walk_id: str) -> list[dict[str, Any]]:
    return [json.loads(row.content) for row in CallRow.objects.filter(walk_id=walk_id)]


# southern-high-plains in squaring week 2: line 25 per 100, floor 0.85. 36 or 4 insects on 100
# plants, and 40 % or none of 200 squares lost; walked on 18 June, not treated: 3 days on
@pytest.mark.parametrize(
    ("nymphs", "lost", "verdict", "next_look"),
    [
        (9, 2, "treat", "2026-06-21"),
        (9, 0, "look-sooner", "2026-06-22"),
        (1, 0, "hold", "2026-06-25"),
        (1, 2, "look-sooner", "2026-06-22"),
    ],
)
def test_the_rule_s_table_is_followed(
    people: People, nymphs: int, lost: int, verdict: str, next_look: str
) -> None:
    made_ready(people.home)
    [told] = kept(walk_in(people.home, people.bob, nymphs=nymphs, lost=lost))
    assert (told["call"]["verdict"], told["call"]["next_look"]) == (verdict, next_look)


def test_every_walk_of_the_demo_gets_the_call_that_the_command_prints(
    people: People, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    district = load_district()
    write_season(make_season(district, np.random.default_rng(0)), tmp_path)
    table, plantings = tmp_path / WALKS, tmp_path / PLANTINGS
    main(["call", str(table), "--guideline", district.guideline, "--plantings", str(plantings),
          "--json"])  # fmt: skip
    printed = json.loads(capsys.readouterr().out)["walks"]

    add_fields(district=people.near, fields=demo_fields())
    for field in FieldRow.objects.filter(district=people.near):
        set_rule(field=field, guideline=district.guideline, line="")
    set_plantings(district=people.near, plantings=read_plantings(plantings))
    done = walks.import_walks(district=people.near, walks=read_walks(table), by=people.alice)

    assert len(printed) == len(done.walk_ids) >= 40
    for told, walk_id in zip(printed, done.walk_ids, strict=True):
        [here] = kept(walk_id)
        assert here.pop("office") == {"provisional": False, "why": []}
        here.pop("walk" if "walk" not in told else "none", None)
        assert here == told


def test_the_last_treatment_before_the_walk_counts(people: People) -> None:
    made_ready(people.home)
    dates = SeasonDates(first_square=FIRST_SQUARE)
    treated = [date(2026, 6, 10), date(2026, 6, 15), DAY]
    set_dates(field=people.home, year=2026, dates=dates, treated=treated)
    [told] = kept(walk_in(people.home, people.bob, nymphs=9, lost=2))
    assert told["call"]["verdict"] == "look-sooner"
    assert "recently-treated" in [reason["code"] for reason in told["call"]["reasons"]]


def test_the_season_of_the_walk_s_year_counts(people: People) -> None:
    made_ready(people.home)
    late = SeasonDates(first_square=date(2027, 6, 17))
    set_dates(field=people.home, year=2027, dates=late)
    [told] = kept(walk_in(people.home, people.bob, nymphs=1, lost=0))
    assert told["stage"] == {"name": "squaring", "squaring_weeks": [2]}


def test_the_line_that_was_chosen_is_the_line(people: People) -> None:
    made_ready(people.home)
    set_rule(field=people.home, guideline="southern-high-plains", line="30")
    [told] = kept(walk_in(people.home, people.bob, nymphs=7, lost=2))
    assert told["call"]["guideline"]["line"] == 30
    assert told["call"]["verdict"] == "look-sooner"


LACKING = [
    ({"waiting": 1}, "Waiting for 1 more entry from the phone."),
    ({"waiting": 3}, "Waiting for 3 more entries from the phone."),
    ({"state": "open"}, "The walk is still going on."),
    ({"state": "handed-over"}, "The walk was handed over; nobody has gone on yet."),
    ({"doubled": 2}, "2 plants were entered twice; the first entry counts."),
]


@pytest.mark.parametrize(("changed", "said"), LACKING)
def test_what_is_lacking_makes_the_call_one_for_now_and_leaves_the_core_s_as_it_is(
    people: People, changed: dict[str, Any], said: str
) -> None:
    made_ready(people.home)
    walk_id = walk_in(people.home, people.bob, nymphs=9, lost=2)
    whole = json.loads(calls.call_text(called(walk_id)))
    WalkRow.objects.filter(walk_id=walk_id).update(**changed)
    told = json.loads(calls.call_text(called(walk_id)))
    assert told.pop("office") == {"provisional": True, "why": [said]}
    assert whole.pop("office") == {"provisional": False, "why": []}
    assert told == whole
