"""Of which station a file's days are: as the file says, else asked; never one too many."""

from __future__ import annotations

import gzip
from datetime import date

from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from quarterwalk.office.models import StationRow
from tests.office.people import People
from tests.office.weathered import FIRST, planted, station, weathered
from tests.office_pages.visits import visitor, words

LIST = "USC00410001  33.0000 -100.1000  700.0 TX GIN ROAD                               \n"


def table(*rows: str, columns: str = "date,tmin_f,tmax_f") -> str:
    return "\n".join([columns, *rows]) + "\n"


ONE = table("2026-06-01,70,90", "2026-06-02,71,91")
TWO = table("2026-06-02,71,91", "2026-06-03,72,92")


def hand_in(people: People, content: str | bytes, name: str, **more: object) -> HttpResponse:
    data = content.encode() if isinstance(content, str) else content
    told = {"file": SimpleUploadedFile(name, data), **more}
    return visitor(people.alice).post("/weather/import", told, follow=True)


def stations() -> list[str]:
    return [row.station for row in StationRow.objects.all()]


def test_a_second_download_is_asked_of_which_station_its_days_are(people: People) -> None:
    hand_in(people, ONE, "weather.csv")
    answer = hand_in(people, TWO, "weather (1).csv")
    assert answer.status_code == 422
    page = words(answer.content.decode())
    assert "The file does not say of which station its days are" in page
    assert stations() == ["weather"]
    page = words(hand_in(people, TWO, "weather (1).csv", station="weather").content.decode())
    assert "weather: 1 day new." in page
    assert stations() == ["weather"]
    assert StationRow.objects.get().last == date(2026, 6, 3)


def test_a_file_of_the_same_name_is_of_the_same_station(people: People) -> None:
    hand_in(people, ONE, "weather.csv")
    assert "weather: 1 day new." in words(hand_in(people, TWO, "weather.csv").content.decode())


def test_a_nameless_table_that_lies_where_a_station_does_is_asked_too(people: People) -> None:
    columns = "date,tmin_f,tmax_f,latitude,longitude"
    near = table("2026-06-03,72,92,33.001,-100.1", columns=columns)
    weathered(people.near)
    answer = hand_in(people, near, "w.csv")
    assert answer.status_code == 422
    assert "lies where Gin Road does" in words(answer.content.decode())
    hand_in(people, near, "w.csv", station="GIN")
    assert [(row.station, row.name) for row in StationRow.objects.all()] == [("GIN", "Gin Road")]


def test_a_nameless_table_of_another_place_is_another_station(people: People) -> None:
    weathered(people.near)
    columns = "date,tmin_f,tmax_f,latitude,longitude"
    away = table("2026-06-03,72,92,33.5,-100.1", columns=columns)
    assert hand_in(people, away, "creek.csv").status_code == 200
    assert stations() == ["GIN", "creek"]


def test_a_file_that_names_its_station_is_not_taken_for_another(people: People) -> None:
    weathered(people.near)
    named = table("2026-06-03,72,92,CREEK", columns="date,tmin_f,tmax_f,station")
    answer = hand_in(people, named, "w.csv", station="GIN")
    assert answer.status_code == 422
    assert "This file names its stations." in words(answer.content.decode())
    assert stations() == ["GIN"]


def test_no_station_is_asked_for_while_there_is_none(people: People) -> None:
    path = "/weather/import"
    assert 'name="station"' not in visitor(people.alice).get(path).content.decode()
    weathered(people.near)
    page = visitor(people.alice).get(path).content.decode()
    assert '<option value="GIN">Gin Road</option>' in page


def test_a_station_that_lies_elsewhere_than_before_is_refused(people: People) -> None:
    weathered(people.near)
    columns = "date,tmin_f,tmax_f,station,latitude,longitude"
    moved = table("2026-06-03,72,92,GIN,33.5,-100.1", columns=columns)
    answer = hand_in(people, moved, "w.csv")
    assert answer.status_code == 422
    assert "Must be the place of Gin Road, which is here already" in words(answer.content.decode())


def test_it_is_said_when_no_fields_stage_can_be_worked_out(people: People) -> None:
    planted(people.home)
    page = words(hand_in(people, ONE, "weather.csv").content.decode())
    assert "No field's stage can be worked out yet. Weather of weather must have every day" in page
    StationRow.objects.all().delete()
    weathered(people.near, station("weather", name="", place=None, days=(FIRST, date(2026, 6, 30))))
    page = words(hand_in(people, ONE, "weather.csv").content.decode())
    assert "stage can be worked out yet" not in page


def test_a_file_and_its_list_may_have_one_name(people: People) -> None:
    days = "USC00410001,20260601,TMAX,322,,,S,\nUSC00410001,20260601,TMIN,200,,,S,\n"
    listed = SimpleUploadedFile("list", LIST.encode())
    assert hand_in(people, days, "list", stations=listed).status_code == 200
    assert StationRow.objects.get().name == "GIN ROAD"


def test_a_packed_file_is_read_and_asked_about_as_any_other(people: People) -> None:
    days = "USC00410001,20260601,TMAX,322,,,S,\nUSC00410001,20260601,TMIN,200,,,S,\n"
    listed = SimpleUploadedFile("list.txt", LIST.encode())
    assert (
        hand_in(people, gzip.compress(days.encode()), "2026.csv.gz", stations=listed).status_code
        == 200
    )
    assert StationRow.objects.get().name == "GIN ROAD"
    answer = hand_in(people, gzip.compress(ONE.encode()), "weather.csv.gz")
    assert answer.status_code == 422
    assert "does not say of which station" in words(answer.content.decode())
    page = visitor(people.alice).get("/weather/import").content.decode()
    assert 'accept=".csv,.xlsx,.txt,.dly,.gz"' in page
