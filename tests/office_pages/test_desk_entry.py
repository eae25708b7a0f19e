from __future__ import annotations

import pytest
from django.http import HttpResponse

from quarterwalk.office.models import CheckRow, WalkRow
from tests.office.people import People
from tests.office_pages.visits import Tags, visitor, words

HEAD = {"on": "2026-07-01", "scout": "Bob Tarn"}


def type_in(people: People, **cells: str) -> HttpResponse:
    given = HEAD | {name.replace("_", "-"): value for name, value in cells.items()}
    return visitor(people.bob).post(f"/fields/{people.home.public_id}/walk", given)


def test_the_sheet_has_25_plants_a_quarter_and_six_counts_a_plant(people: People) -> None:
    page = visitor(people.bob).get(f"/fields/{people.home.public_id}/walk").content.decode()
    cells = [tag for tag in Tags(page).named("input") if tag.get("inputmode") == "numeric"]
    assert len(cells) == 4 * 25 * 6
    assert {"SE, plant 25, flared", "NW, plant 1, adults"} <= {c["aria-label"] for c in cells}
    assert not any(cell["value"] for cell in cells)


def test_a_blank_is_not_looked_at_and_beside_a_count_it_is_none(people: People) -> None:
    answer = type_in(people, NW_1_nymphs="2", NW_2_healthy="3", SE_25_adults="0")
    assert answer.status_code == 302
    first, second, last = CheckRow.objects.order_by("position")
    assert (first.quadrant, first.plant, first.adults, first.nymphs) == ("NW", 1, 0, 2)
    assert first.healthy is None
    assert (second.adults, second.healthy, second.missing) == (None, 3, 0)
    assert (last.quadrant, last.plant, last.adults, last.nymphs) == ("SE", 25, 0, 0)
    walk = WalkRow.objects.get()
    assert (walk.source, walk.scouts, str(walk.on)) == ("desk", "Bob Tarn", "2026-07-01")


def test_a_count_that_cannot_be_read_is_named_by_quarter_plant_and_column(
    people: People,
) -> None:
    answer = type_in(people, NE_7_nymphs="2O", NE_8_nymphs="100", SW_1_adults="4")
    page = answer.content.decode()
    assert answer.status_code == 422
    assert (
        'NE, plant 7, nymphs: must be a whole number from 0 to 99, got "2O". A letter for a digit?'
        in words(page)
    )
    assert "NE, plant 8, nymphs" in words(page)
    assert 'href="#NE-7-nymphs"' in page
    assert not WalkRow.objects.exists()


def test_a_refused_sheet_keeps_what_was_typed(people: People) -> None:
    page = type_in(people, NE_7_nymphs="2O", SW_1_adults="4").content.decode()
    values = {t["name"]: t["value"] for t in Tags(page).named("input") if t.get("value")}
    assert values["NE-7-nymphs"] == "2O"
    assert values["SW-1-adults"] == "4"
    assert values["scout"] == "Bob Tarn"


def test_a_sheet_without_a_count_is_refused(people: People) -> None:
    answer = type_in(people)
    assert answer.status_code == 422
    assert "No plant has a count yet." in answer.content.decode()


@pytest.mark.parametrize(
    ("on", "said"),
    [
        ("2026-07-02", "must not be after today, 2026-07-01"),
        ("0001-01-01", "The year must be from 1700 to 2199."),
    ],
)
def test_a_walk_of_a_day_that_cannot_be_is_refused(people: People, on: str, said: str) -> None:
    given = HEAD | {"on": on, "NW-1-adults": "0"}
    answer = visitor(people.bob).post(f"/fields/{people.home.public_id}/walk", given)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_a_grower_types_in_no_walk(people: People) -> None:
    assert visitor(people.gil).get(f"/fields/{people.home.public_id}/walk").status_code == 404
