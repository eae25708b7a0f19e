"""Two walks of one field and day: the one that came in last holds, and that is said."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from quarterwalk.office.models import FieldRow, Person, WalkRow
from quarterwalk.office.queries.standing import standings
from quarterwalk.office.services.walks import strike_walk
from tests.office.people import People
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import judge, walk_in

DAY = date(2026, 6, 30)


def table(insects: int, lost: int) -> str:
    """Write a walk of 25 plants a quarter, some with one nymph, all with some of 4 squares lost."""
    rows = [
        f"Home 80,{DAY},{quarter},{plant},0,{int(plant <= insects)},{4 - lost},{lost},0,0"
        for quarter in ("NW", "NE", "SW", "SE")
        for plant in range(1, 26)
    ]
    return "\n".join(
        ["field,date,quadrant,plant,adults,nymphs,healthy,missing,blasted,flared", *rows]
    )


def brought(person: Person, content: str) -> str:
    """Hand a table of walks in, and give the page that follows."""
    file = SimpleUploadedFile("w.csv", content.encode())
    return visitor(person).post("/walks/import", {"file": file}, follow=True).content.decode()


@pytest.fixture
def corrected(people: People) -> str:
    """Bring a walk that says hold, then the same one as it was: far more insects, half lost."""
    judge(people.home)
    brought(people.alice, table(2, 0))
    return brought(people.alice, table(13, 2))


def verdict(people: People) -> str:
    [told] = standings(FieldRow.objects.filter(pk=people.home.pk), date(2026, 7, 1))
    assert told.call is not None
    return str(told.call["call"]["verdict"])


def test_a_corrected_table_takes_the_place_of_the_one_before(
    people: People, corrected: str
) -> None:
    assert verdict(people) == "treat"
    assert "Treat 1 Home 80" in words(corrected)
    assert "1 to treat" in words(corrected)
    assert "treat" in words(visitor(people.gil).get("/").content.decode())


def test_the_new_one_stands_first_on_the_fields_page(people: People, corrected: str) -> None:
    page = visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode()
    assert 0 < words(page).index("52 insects") < words(page).index("8 insects")


def test_walks_of_one_day_are_told_apart_by_when_they_came_not_by_their_numbers_as_text(
    people: People, corrected: str
) -> None:
    # 102 entries a walk: the fields' walks are 1, 103, 205 and so on; as text 1021 is before 103
    for nymphs in range(8):
        brought(people.alice, table(nymphs, 0).replace("Home 80", "East 80"))
    brought(people.alice, table(1, 0))
    assert WalkRow.objects.filter(field=people.home, walk_id__endswith="-1021").exists()
    assert verdict(people) == "hold"


def test_it_is_said_with_a_link_which_walk_is_here_and_which_holds(
    people: People, corrected: str
) -> None:
    old = WalkRow.objects.order_by("walk_id").first()
    assert old is not None
    assert f'<a href="/walks/{old.walk_id}">A walk of Home 80 on 30 June</a>' in corrected
    said = "A walk of Home 80 on 30 June is here already; the new one holds."
    assert f"{said} Leave one of them out if both are the same walk." in words(corrected)


def test_a_walk_that_began_later_in_the_day_still_holds_and_that_is_said(people: People) -> None:
    judge(people.home)
    brought(people.alice, table(2, 0))
    WalkRow.objects.update(opened_at="2026-06-30T20:00Z")
    page = words(brought(people.alice, table(13, 2)))
    assert "is here already; it began later, and holds." in page
    assert verdict(people) == "hold"


def test_a_name_of_a_field_stands_in_the_link_as_text(people: People) -> None:
    FieldRow.objects.filter(pk=people.home.pk).update(name="Home <b> 80")
    for nymphs in (1, 2):
        page = brought(people.alice, table(nymphs, 0).replace("Home 80", "Home <b> 80"))
    assert "A walk of Home &lt;b&gt; 80 on 30 June</a>" in page


def test_first_walks_and_walks_that_were_left_out_are_beside_nothing(people: People) -> None:
    judge(people.home)
    assert "is here already" not in brought(people.alice, table(2, 0))
    strike_walk(walk=WalkRow.objects.get(), by=people.alice)
    assert "is here already" not in brought(people.alice, table(3, 0))


def test_a_sheet_that_is_typed_in_beside_another_walk_is_told_too(people: People) -> None:
    walk_in(people.home, people.bob, DAY, nymphs=1, lost=0)
    path = f"/fields/{people.home.public_id}/walk"
    sheet = {"on": str(DAY), "scout": "Bob Tarn", "NW-1-nymphs": "1"}
    page = visitor(people.bob).post(path, sheet, follow=True).content.decode()
    assert "A walk of Home 80 on 30 June is here already; the new one holds." in words(page)
