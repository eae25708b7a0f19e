"""Ending walks early: a lead alone switches it, and pages say what it comes to."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from quarterwalk.files import read_walks
from quarterwalk.office.models import District
from quarterwalk.office.services.district import set_stopping
from quarterwalk.office.services.fields import set_rule
from quarterwalk.office.services.walks import import_walks
from quarterwalk.plan import Stopping, shelved_plans
from quarterwalk.walk import QUADRANTS
from tests.office.people import People
from tests.office_pages.visits import Tags, visitor, words
from tests.office_pages.walked import judge

PAGE = "/district/ending"


def choose(people: People, who: str, stopping: str) -> int:
    return visitor(getattr(people, who)).post(PAGE, {"stopping": stopping}).status_code


def chosen(district: District) -> str:
    return District.objects.get(pk=district.pk).stopping


def the_field(people: People, who: str = "alice") -> str:
    client = visitor(getattr(people, who))
    return client.get(f"/fields/{people.home.public_id}").content.decode()


def test_a_lead_reads_what_it_does_and_finds_it_off(people: People) -> None:
    page = visitor(people.alice).get(PAGE).content.decode()
    (on,) = [tag for tag in Tags(page).named("input") if "checked" in tag]
    assert on["value"] == "off"
    told = words(page)
    assert "This is off until a lead of Near switches it on here." in told
    assert "in clear fields at most 1 in 100 more, near the lines at most 5 in 100 more" in told
    assert "To treat, the walk is finished, unless you choose either way." in told


@pytest.mark.parametrize("stopping", [each.value for each in Stopping])
def test_a_lead_switches_it_on_and_off_again(people: People, stopping: str) -> None:
    assert choose(people, "alice", stopping) == 302
    assert chosen(people.near) == stopping
    page = visitor(people.alice).get(PAGE).content.decode()
    (on,) = [tag for tag in Tags(page).named("input") if "checked" in tag]
    assert on["value"] == stopping
    assert choose(people, "alice", "off") == 302
    assert chosen(people.near) == ""


@pytest.mark.parametrize("who", ["bob", "gil"])
def test_nobody_but_a_lead_can_change_it(people: People, who: str) -> None:
    assert choose(people, who, "either-way") == 404
    assert visitor(getattr(people, who)).get(PAGE).status_code == 404
    assert chosen(people.near) == ""
    assert PAGE not in the_field(people, who)


def test_a_lead_changes_their_own_district_alone(people: People) -> None:
    assert choose(people, "charlie", "hold-only") == 302
    assert (chosen(people.near), chosen(people.far)) == ("", "hold-only")


@pytest.mark.parametrize("sent", [{}, {"stopping": ""}, {"stopping": "sometimes"}])
def test_a_form_without_a_choice_changes_nothing(people: People, sent: dict[str, str]) -> None:
    set_stopping(district=people.near, stopping=Stopping.HOLD_ONLY)
    assert visitor(people.alice).post(PAGE, sent).status_code == 422
    assert chosen(people.near) == "hold-only"


@pytest.fixture
def judged(people: People) -> People:
    """Give Gil's field its rule and dates: the day lies in the second week of squaring."""
    judge(people.home)
    return people


def test_a_field_says_that_it_is_off(judged: People) -> None:
    assert "Ending the walk early Off" in words(the_field(judged, "bob"))


TAKES = re.compile(
    r"May end after the first loop: about ([0-9]+) minutes on average here, ([0-9]+) in a clear"
    r" field; both loops take ([0-9]+)"
)


def test_a_field_says_how_many_minutes_its_walk_takes(judged: People) -> None:
    set_stopping(district=judged.near, stopping=Stopping.HOLD_ONLY)
    told = words(the_field(judged, "bob"))
    found = TAKES.search(told)
    assert found is not None
    mean, clear, both = map(float, found.groups())
    assert 0 < clear < mean < both
    assert "To treat, finish the walk" in told


def test_either_way_needs_no_finished_walk_to_treat(judged: People) -> None:
    set_stopping(district=judged.near, stopping=Stopping.EITHER_WAY)
    told = words(the_field(judged))
    assert TAKES.search(told)
    assert "To treat, finish the walk" not in told


def test_the_way_to_change_it_is_for_a_lead(judged: People) -> None:
    assert f'href="{PAGE}"' in the_field(judged)
    assert f'href="{PAGE}"' not in the_field(judged, "bob")


def test_a_grower_reads_nothing_of_it(judged: People) -> None:
    assert "Ending the walk early" not in the_field(judged, "gil")


def test_without_limits_for_the_rule_a_field_says_so(judged: People) -> None:
    set_stopping(district=judged.near, stopping=Stopping.HOLD_ONLY)
    set_rule(field=judged.home, guideline="tennessee-sweep", line="")
    told = words(the_field(judged, "bob"))
    assert "No limits for this rule, line and week: finish the walk" in told


def test_where_one_round_would_be_quicker_a_field_says_so(
    judged: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_stopping(district=judged.near, stopping=Stopping.HOLD_ONLY)
    monkeypatch.setattr("quarterwalk.office.early_end._tour_metres", lambda *_: 0.0)
    told = words(the_field(judged, "bob"))
    assert re.search(r"All 100 plants in one round would take [0-9]+ minutes, no more than", told)


def test_a_walk_names_its_plan_briefly_and_its_table_whole(judged: People, tmp_path: Path) -> None:
    plan = shelved_plans()[0].plan
    table = tmp_path / "walks.csv"
    rows = [
        f"Home 80,2026-07-01,{quadrant},{number},0,0,{plan.hash}"
        for quadrant in QUADRANTS
        for number in range(1, 11)
    ]
    table.write_text("\n".join(["field,date,quadrant,plant,adults,nymphs,plan", *rows]))
    done = import_walks(district=judged.near, walks=read_walks(table), by=judged.alice)
    client = visitor(judged.bob)
    page = client.get(f"/walks/{done.walk_ids[0]}").content.decode()
    assert f"It names stop plan {plan.short}." in words(page)
    assert plan.hash not in page
    table.write_bytes(client.get(f"/walks/{done.walk_ids[0]}.csv").content)
    (walk,) = read_walks(table).table
    assert walk.plan == plan.hash


def test_a_plan_that_has_a_name_of_its_own_is_told_by_it(judged: People, tmp_path: Path) -> None:
    table = tmp_path / "walks.csv"
    table.write_text(
        "field,date,quadrant,plant,adults,nymphs,plan\nHome 80,2026-07-01,NW,1,0,0,Our own plan"
    )
    done = import_walks(district=judged.near, walks=read_walks(table), by=judged.alice)
    page = visitor(judged.bob).get(f"/walks/{done.walk_ids[0]}").content.decode()
    assert "It names stop plan Our own plan." in words(page)
