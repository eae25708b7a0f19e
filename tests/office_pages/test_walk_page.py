from __future__ import annotations

from datetime import date

from django.core.files.uploadedfile import SimpleUploadedFile

from quarterwalk.files import read_walks
from quarterwalk.guideline import load_guideline
from quarterwalk.office.models import WalkRow
from quarterwalk.office.services.fields import SeasonDates, set_dates, set_rule
from tests.office.people import People
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import judge, walk_in


def the_page(people: People, walk_id: str, who: str = "alice") -> str:
    return visitor(getattr(people, who)).get(f"/walks/{walk_id}").content.decode()


def test_each_reason_stands_beside_the_document_it_comes_from(people: People, walk_id: str) -> None:
    told = words(the_page(people, walk_id))
    assert "County scouting report of 2019-07-05, west Texas" in told
    assert "36 fleahoppers on 100 plants" in told


def test_those_who_judge_read_odds_and_growers_a_word(people: People, walk_id: str) -> None:
    lead, grower = the_page(people, walk_id), the_page(people, walk_id, "gil")
    assert "Insects at or past the line: better than 19 in 20." in lead
    assert "in 20" not in grower
    assert " in 10 that" not in grower
    assert "Clear. The rule calls for treating" in grower


def test_every_quarter_has_its_row_behind_the_picture(people: People, walk_id: str) -> None:
    told = words(the_page(people, walk_id))
    for quarter in ("NW", "NE", "SW", "SE"):
        # 9 nymphs on 25 plants; 10 plants of 5 squares, 3 of each healthy
        assert f"{quarter} 9 on 25 60 % of 50" in told


def test_cautions_stand_where_the_decision_is_made(people: People, walk_id: str) -> None:
    page = the_page(people, walk_id)
    assert "re-entry time on the label has passed" in page
    assert "the label, local rules and a licensed applicator prevail" in page


def test_the_edition_and_the_content_of_the_rule_are_named(people: People, walk_id: str) -> None:
    assert "edition 2026.1, content " in the_page(people, walk_id)


def test_a_call_made_before_the_rule_changed_stays_to_read(people: People, walk_id: str) -> None:
    set_rule(field=people.home, guideline="oklahoma", line="45")
    page = the_page(people, walk_id)
    assert "Calls before this one" in page
    earlier = words(page[page.index("Calls before this one") :])
    assert "treat 1 July, " in earlier
    assert "southern-high-plains, edition 2026.1" in earlier


def test_without_a_rule_the_page_says_what_is_lacking_and_where_to_mend_it(
    people: People,
) -> None:
    walk_id = walk_in(people.east, people.bob, date(2026, 7, 1), nymphs=1, lost=0)
    page = the_page(people, walk_id)
    assert "nobody has chosen the rule" in page
    assert f'href="/fields/{people.east.public_id}/rule"' in page
    assert f"/fields/{people.east.public_id}/rule" not in the_page(people, walk_id, "bob")


def test_a_walks_table_reads_back_as_a_hundred_plants(
    people: People, walk_id: str, tmp_path
) -> None:
    answer = visitor(people.gil).get(f"/walks/{walk_id}.csv")
    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    assert 'filename="home-80-2026-07-01.csv"' in answer["Content-Disposition"]
    path = tmp_path / "walk.csv"
    path.write_bytes(answer.content)
    (walk,) = read_walks(path).table
    assert (walk.field, walk.date, len(walk.checks)) == ("Home 80", date(2026, 7, 1), 100)


def test_a_walk_that_is_left_out_counts_nowhere_and_stays_to_read(
    people: People, walk_id: str
) -> None:
    client = visitor(people.alice)
    assert client.post(f"/walks/{walk_id}/strike", {"sure": "on"}).status_code == 302
    assert "This walk is left out" in the_page(people, walk_id)
    assert "no walk yet" in words(client.get("/").content.decode())


def test_a_scout_can_leave_out_no_walk(people: People, walk_id: str) -> None:
    assert visitor(people.bob).get(f"/walks/{walk_id}/strike").status_code == 404
    assert "/strike" not in the_page(people, walk_id, "bob")


def test_notes_of_plants_are_shown_each_once_to_those_who_walk(people: People) -> None:
    rows = [
        ("NW,1", "hail"), ("NW,2", ""), ("NE,1", "hail"), ("SE,4", "leaf curl"),
        *((f"SW,{plant}", "dusty") for plant in range(1, 5)),
    ]  # fmt: skip
    table = "field,date,quadrant,plant,adults,nymphs,note\n" + "".join(
        f"Home 80,2026-06-30,{place},0,1,{text}\n" for place, text in rows
    )
    file = SimpleUploadedFile("w.csv", table.encode())
    visitor(people.alice).post("/walks/import", {"file": file})
    walk = WalkRow.objects.get().walk_id
    told = words(the_page(people, walk))
    said = "Noted of single plants NW 1 and NE 1 hail SE 4 leaf curl 4 plants dusty"
    assert said in told
    assert "leaf curl" not in the_page(people, walk, "gil")


def test_a_rule_is_named_by_its_title(people: People) -> None:
    judge(people.home)
    dates = SeasonDates(first_square=date(2026, 6, 5), bloom=date(2026, 6, 29))
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    walk = walk_in(people.home, people.bob, date(2026, 6, 30), nymphs=1, lost=0)
    told = words(the_page(people, walk, "gil"))
    title = load_guideline("southern-high-plains").title
    assert f"The season of {title} is over" in told
    assert "The season of southern-high-plains" not in told
