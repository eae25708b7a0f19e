from __future__ import annotations

import pytest
from django.http import HttpResponse

from quarterwalk.office.models import FieldRow
from quarterwalk.office.services import fields as changes
from tests.office.people import People
from tests.office_pages.visits import Tags, visitor, words


def choose(people: People, guideline: str, line: str) -> HttpResponse:
    path = f"/fields/{people.home.public_id}/rule"
    return visitor(people.alice).post(path, {"guideline": guideline, "line": line})


def test_no_guideline_is_chosen_beforehand(people: People) -> None:
    page = visitor(people.alice).get(f"/fields/{people.home.public_id}/rule").content.decode()
    chosen = [tag for tag in Tags(page).named("input") if tag.get("type") == "radio"]
    assert len(chosen) == 8
    assert not any("checked" in tag for tag in chosen)
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
        ("southern-high-plains", "24.9999999", "by this guideline, got 24.9999999."),
        ("southern-high-plains", "1e9999999999999", "must be a number such as 25, got"),
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


def rules(people: People) -> dict[str, tuple[str, str]]:
    rows = FieldRow.objects.filter(district__in=(people.near, people.far))
    return {row.name: (row.guideline, row.line) for row in rows}


def choose_for_rest(people: People, line: str = "28") -> HttpResponse:
    path = f"/fields/{people.home.public_id}/rule"
    told = {"guideline": "southern-high-plains", "line": line, "rest": "1"}
    return visitor(people.alice).post(path, told, follow=True)


def test_a_rule_is_chosen_for_all_fields_without_one_at_once(people: People) -> None:
    changes.set_rule(field=people.home, guideline="mid-coast", line="")
    page = words(choose_for_rest(people).content.decode())
    assert "It holds for 1 more field that had none." in page
    chosen = ("southern-high-plains", "28")
    assert rules(people) == {"Home 80": chosen, "East 80": chosen, "Away 80": ("", "")}


def test_no_field_that_has_a_rule_gets_another(people: People) -> None:
    changes.set_rule(field=people.east, guideline="mid-coast", line="")
    path = f"/fields/{people.home.public_id}/rule"
    assert 'name="rest"' not in visitor(people.alice).get(path).content.decode()
    choose_for_rest(people)
    assert rules(people)["East 80"] == ("mid-coast", "")


def test_a_line_that_is_refused_is_chosen_for_no_field(people: People) -> None:
    assert choose_for_rest(people, "31").status_code == 422
    assert {*rules(people).values()} == {("", "")}


def test_rules_of_all_fields_are_kept_together_or_none(
    people: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks(_: object) -> None:
        raise RuntimeError("broken")

    monkeypatch.setattr(changes.calls, "keep_for_fields", breaks)
    with pytest.raises(RuntimeError):
        changes.set_rule_for_rest(field=people.home, guideline="mid-coast", line="")
    assert {*rules(people).values()} == {("", "")}


def test_what_is_published_stands_below_with_its_sources(people: People) -> None:
    path = f"/fields/{people.home.public_id}/rule"
    page = visitor(people.alice).get(path).content.decode()
    assert page.count("<details><summary>") == 8
    assert "Save it for 1 other field without a rule too" in page
    told = words(page)
    assert "Line 25 insects per 100 terminals, adults and nymphs together" in told
    assert "Sources [1] " in told
