from __future__ import annotations

import pytest
from django.http import HttpResponse

from quarterwalk.office.models import FieldRow
from tests.office.people import People
from tests.office_pages.visits import visitor, words


def choose(people: People, guideline: str, line: str) -> HttpResponse:
    path = f"/fields/{people.home.public_id}/rule"
    return visitor(people.alice).post(path, {"guideline": guideline, "line": line})


def test_no_guideline_is_chosen_beforehand(people: People) -> None:
    page = visitor(people.alice).get(f"/fields/{people.home.public_id}/rule").content.decode()
    assert page.count('type="radio"') == 8
    assert "checked" not in page
    assert "Southern High Plains of Texas: line 25 to 30 per 100 plants" in page


def test_a_line_inside_the_published_range_is_kept(people: People) -> None:
    assert choose(people, "southern-high-plains", "28").status_code == 302
    row = FieldRow.objects.get(pk=people.home.pk)
    assert (row.guideline, row.line) == ("southern-high-plains", "28")


def test_an_empty_line_stands_for_the_lower_end(people: People) -> None:
    assert choose(people, "southern-high-plains", "").status_code == 302
    page = visitor(people.alice).get(f"/fields/{people.home.public_id}").content.decode()
    assert "Line 25 per 100, the lower end of 25 to 30" in page


@pytest.mark.parametrize(
    ("guideline", "line", "said"),
    [
        ("southern-high-plains", "24", "must be from 25 to 30 by this guideline, got 24."),
        ("southern-high-plains", "31", "must be from 25 to 30 by this guideline, got 31."),
        ("mid-coast", "16", "must be 15 by this guideline, got 16."),
        ("tennessee-sweep", "20", "must be left out: the line changes by week"),
        ("southern-high-plains", "many", 'must be a number such as 25, got "many".'),
        ("", "25", "Choose the guideline of your region."),
    ],
)
def test_a_line_that_is_not_published_is_refused_with_what_may_stand_there(
    people: People, guideline: str, line: str, said: str
) -> None:
    answer = choose(people, guideline, line)
    assert answer.status_code == 422
    assert said in words(answer.content.decode())
    assert FieldRow.objects.get(pk=people.home.pk).guideline == ""


def test_what_was_typed_stays_on_a_refused_form(people: People) -> None:
    page = choose(people, "southern-high-plains", "31").content.decode()
    assert 'value="31"' in page
    assert 'value="southern-high-plains"' in page.split("checked")[0]
