from __future__ import annotations

import io
import json
import zipfile

import pytest
import shapefile
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from quarterwalk.office.forms.upload import plain_name
from quarterwalk.office.models import FieldRow, JournalEntry, Person, SeasonRow, WalkRow
from tests.office.people import People, phone, square
from tests.office_pages.visits import visitor, words

WALKS = "field,date,quadrant,plant,adults,nymphs\n"


def hand_in(person: Person, path: str, name: str, content: str | bytes) -> HttpResponse:
    data = content.encode() if isinstance(content, str) else content
    return visitor(person).post(path, {"file": SimpleUploadedFile(name, data)})


def boundaries(*names: str) -> str:
    features = [
        {
            "type": "Feature",
            "properties": {"name": name, "grower": "Gil Orme"},
            "geometry": json.loads(square(-100.5 + 0.02 * place)),
        }
        for place, name in enumerate(names)
    ]
    return json.dumps({"type": "FeatureCollection", "features": features})


def zipped_shapefile() -> bytes:
    parts = {ending: io.BytesIO() for ending in ("shp", "shx", "dbf")}
    with shapefile.Writer(**parts) as writer:
        writer.field("name", "C", 40)
        writer.poly(json.loads(square(-100.5))["coordinates"])
        writer.record("River 40")
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as folder:
        for ending, part in parts.items():
            folder.writestr(f"fields.{ending}", part.getvalue())
    return held.getvalue()


def test_a_boundary_file_brings_new_fields_and_says_how_many(people: People) -> None:
    answer = hand_in(people.alice, "/fields/import", "f.geojson", boundaries("River 40", "Gin 60"))
    assert answer.status_code == 302
    assert FieldRow.objects.filter(district=people.near).count() == 4
    page = visitor(people.alice)
    page.cookies = answer.client.cookies
    assert "Fields taken from f.geojson: 2 new." in page.get("/").content.decode()


def test_a_field_too_large_for_one_walk_is_told(people: People) -> None:
    told = json.loads(boundaries("River 40", "Ranch"))
    corners = told["features"][1]["geometry"]["coordinates"][0]
    west, south = corners[0]
    told["features"][1]["geometry"]["coordinates"] = [
        [[west + 2 * (x - west), south + 2 * (y - south)] for x, y in corners]
    ]
    answer = hand_in(people.alice, "/fields/import", "f.geojson", json.dumps(told))
    browser = visitor(people.alice)
    browser.cookies = answer.client.cookies
    page = words(browser.get("/").content.decode())
    assert "acres are too many for one walk of 100 plants (over 160)" in page
    assert "Ranch: " in page
    assert "River 40: " not in page


def test_a_zipped_shapefile_is_read(people: People) -> None:
    answer = hand_in(people.alice, "/fields/import", "fields.zip", zipped_shapefile())
    assert answer.status_code == 302
    assert FieldRow.objects.filter(name="River 40").exists()


def test_a_file_that_is_no_boundary_file_is_refused_whole(people: People) -> None:
    answer = hand_in(people.alice, "/fields/import", "f.geojson", "not a file")
    assert answer.status_code == 422
    assert "Nothing was taken" in answer.content.decode()
    assert FieldRow.objects.filter(district=people.near).count() == 2


def test_plantings_give_many_fields_their_dates(people: People) -> None:
    table = "field,planted,first_square,treated\nHome 80,2026-05-14,2026-06-20,2026-06-30\n"
    assert hand_in(people.alice, "/plantings/import", "p.csv", table).status_code == 302
    assert str(SeasonRow.objects.get(field=people.home).first_square) == "2026-06-20"


def test_a_planting_table_may_leave_first_square_blank(people: People) -> None:
    table = "field,planted,first_square\nHome 80,2026-05-14,\n"
    assert hand_in(people.alice, "/plantings/import", "p.csv", table).status_code == 302
    season = SeasonRow.objects.get(field=people.home)
    assert (str(season.planted), season.first_square) == ("2026-05-14", None)


def test_all_that_is_wrong_with_plantings_is_told_by_row_and_column(people: People) -> None:
    table = (
        "field,planted,first_square,bloom\nHome 80,2026-05-14,2026-05-20,\n"
        "Nowhere 9,2026-05-14,,\nEast 80,2026-05-14,,2026-06-01\n"
    )
    answer = hand_in(people.alice, "/plantings/import", "p.csv", table)
    told = words(answer.content.decode())
    fits = "Must be a day that fits the season, got"
    assert (
        f"2 first_square {fits} “2026-05-20”. First square must come at least 14 days after"
        " planting (2026-05-14)."
    ) in told
    assert "3 field Must be the name of a field of this office, got “Nowhere 9”." in told
    assert f"4 bloom {fits} “2026-06-01”. First bloom must come at least 28 days" in told
    assert not SeasonRow.objects.exists()


def test_without_planting_first_square_may_not_be_blank(people: People) -> None:
    table = "field,planted,first_square\nHome 80,,\n"
    assert hand_in(people.alice, "/plantings/import", "p.csv", table).status_code == 422
    assert not SeasonRow.objects.exists()


def test_walks_are_taken_once_however_often_they_are_handed_in(people: People) -> None:
    table = WALKS + "Home 80,2026-06-30,NW,1,0,1\nHome 80,2026-06-30,NE,1,0,0\n"
    for _ in range(2):
        assert hand_in(people.bob, "/walks/import", "w.csv", table).status_code == 302
    assert WalkRow.objects.count() == 1


def test_every_problem_of_a_table_is_told_by_row_and_column_and_nothing_is_taken(
    people: People,
) -> None:
    table = WALKS + "Home 80,2026-06-30,NW,1,0,2O\nHome 80,2026-06-30,XX,1,0,0\n"
    answer = hand_in(people.bob, "/walks/import", "w.csv", table)
    told = words(answer.content.decode())
    assert answer.status_code == 422
    assert "2 nymphs Must be a whole number from 0 to 99, got “2O”." in told
    assert "3 quadrant Must be one of NW, NE, SW, SE, got “XX”." in told
    assert not WalkRow.objects.exists()
    assert not JournalEntry.objects.exists()


def test_a_walk_of_an_unknown_field_is_refused_with_its_name(people: People) -> None:
    table = WALKS + "Home 80,2026-06-30,NW,1,0,1\nNowhere 9,2026-06-30,NW,1,0,1\n"
    answer = hand_in(people.bob, "/walks/import", "w.csv", table)
    assert answer.status_code == 422
    assert "3 field Must be the name of a field of this office, got “Nowhere 9”." in words(
        answer.content.decode()
    )
    assert not WalkRow.objects.exists()


def test_no_folder_of_the_machine_is_shown(people: People) -> None:
    page = hand_in(people.bob, "/walks/import", "w.csv", "field\n").content.decode()
    assert "/tmp" not in page


@pytest.mark.parametrize("path", ["/fields/import", "/plantings/import"])
def test_a_scout_hands_in_walks_only(people: People, path: str) -> None:
    client = visitor(people.bob)
    assert client.get(path).status_code == 404
    page = client.get("/import").content.decode()
    assert path not in page
    assert "/walks/import" in page


def test_no_file_chosen_is_said(people: People) -> None:
    answer = visitor(people.bob).post("/walks/import", {})
    assert answer.status_code == 422
    assert "Choose a file." in answer.content.decode()


def test_a_phones_journal_file_is_taken_and_what_cannot_be_waits(people: People) -> None:
    device, _ = phone(people.bob, people.near)
    answer = hand_in(people.bob, "/journal/import", "quarterwalk-x.ndjson", b"{spoiled\n")
    assert answer.status_code == 302
    assert JournalEntry.objects.filter(state="quarantined").count() == 1
    assert "Inbox" in visitor(people.alice).get("/").content.decode()
    assert device.device_id


@pytest.mark.parametrize(
    "path",
    ["/fields/import", "/plantings/import", "/weather/import", "/seen/import", "/walks/import"],
)
@pytest.mark.parametrize("name", ["\u7530" * 95 + ".csv", "b" * 250 + ".csv", "\U0001f33e" * 63])
def test_a_long_name_is_no_fault(people: People, path: str, name: str) -> None:
    answer = hand_in(people.alice, path, name, "nothing,in,it\n")
    assert answer.status_code == 422


def test_a_journal_may_have_a_long_name(people: People) -> None:
    name = "\u7530" * 90 + ".ndjson"
    assert hand_in(people.bob, "/journal/import", name, "{}\n").status_code == 302


@pytest.mark.parametrize(
    ("name", "ending"),
    [("\u7530" * 95 + ".csv", ".csv"), ("a" * 300 + ".csv.gz", ".csv.gz"), ("b." * 150, "b")],
)
def test_a_long_name_is_cut_in_bytes_and_keeps_its_ending(name: str, ending: str) -> None:
    cut = plain_name(name)
    assert 190 < len(cut.encode()) <= 200
    assert cut.endswith(ending)
    assert cut[:20] == name[:20]


@pytest.mark.parametrize(
    ("name", "plain"),
    [("C:\\days\\w.csv", "w.csv"), ("../..", "file"), ("", "file"), ("\u7530.csv", "\u7530.csv")],
)
def test_a_name_is_kept_without_its_folders(name: str, plain: str) -> None:
    assert plain_name(name) == plain
