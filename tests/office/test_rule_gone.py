"""A field whose rule is no longer on the shelf, or whose line is outside it, stops no phone."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.office.models import FieldRow, WalkRow
from quarterwalk.office.services.calls import call_for
from tests.office.people import People
from tests.office.sender import Sender


@pytest.mark.parametrize(
    "rule",
    [{"guideline": "taken-off-the-shelf"}, {"guideline": "southern-high-plains", "line": "99"}],
)
def test_a_walk_is_held_and_has_no_call(bobs: Sender, people: People, rule: dict[str, str]) -> None:
    FieldRow.objects.filter(pk=people.home.pk).update(**rule)
    said = bobs.walk(people.home)
    answers = bobs.send(*said).json()["answers"]
    assert {answer["answer"] for answer in answers} == {"held"}
    walk = WalkRow.objects.get(walk_id=said[0]["walk"])
    judged = call_for(walk)
    assert judged is not None
    assert judged.call is None
    assert walk.on == date(2026, 6, 18)


@pytest.mark.parametrize(
    "rule",
    [{"guideline": "taken-off-the-shelf"}, {"guideline": "southern-high-plains", "line": "99"}],
)
def test_the_day_is_told_all_the_same(bobs: Sender, people: People, rule: dict[str, str]) -> None:
    FieldRow.objects.filter(pk=people.home.pk).update(**rule)
    told = {each["name"]: each for each in bobs.get("day").json()["fields"]}
    assert told["Home 80"]["card"] is not None
