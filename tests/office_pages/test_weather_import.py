from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from quarterwalk.files.weather_writer import write_weather
from quarterwalk.office.models import StationRow
from tests.office.people import People
from tests.office.weathered import planted, station, weathered
from tests.office_pages.visits import visitor, words

JUNE = date(2026, 6, 1)
LIST = "USC00410001  33.0000 -100.1000  700.0 TX GIN ROAD                               \n"


def table(*highs: float | str, station: str = "GIN") -> str:
    rows = ["date,station,latitude,longitude,tmin_f,tmax_f"]
    for at, high in enumerate(highs):
        low = "" if high == "" else float(high) - 20
        day = (JUNE + timedelta(days=at)).isoformat()
        rows.append(f"{day},{station},33.0,-100.1,{low},{high}")
    return "\n".join(rows) + "\n"


def hand_in(people: People, content: str | bytes, name: str = "w.csv", **more: str) -> HttpResponse:
    data = content.encode() if isinstance(content, str) else content
    files = {"file": SimpleUploadedFile(name, data)}
    files |= {field: SimpleUploadedFile("list.txt", text.encode()) for field, text in more.items()}
    return visitor(people.alice).post("/weather/import", files, follow=True)


def test_a_table_is_taken_and_it_is_said_what_came(people: People) -> None:
    page = words(hand_in(people, table(90, 91, 92)).content.decode())
    assert "Weather of 1 station taken from w.csv. GIN: 3 days new." in page
    assert "1 June 2026 to 3 June 2026" in page
    assert "measured until 3 June 2026" in page


def test_days_that_differ_are_counted(people: People) -> None:
    hand_in(people, table(90, 91, 92))
    page = words(hand_in(people, table(90, 95, 92, 93)).content.decode())
    assert "GIN: 1 day new, 1 day measured otherwise than before." in page


def test_what_is_odd_and_what_is_filled_is_said(people: People) -> None:
    page = words(hand_in(people, table(90, "", 92)).content.decode())
    assert "What it lacks is filled: 1 day on a straight line between the days around." in page
    assert "GIN, 2026-06-02: no temperatures; the day is missing." in page


def test_a_table_of_this_office_comes_in_as_it_went_out(people: People, tmp_path: Path) -> None:
    path = tmp_path / "days.csv"
    write_weather([station(days=(JUNE, date(2026, 6, 30)))], path)
    assert hand_in(people, path.read_bytes()).status_code == 200
    row = StationRow.objects.get()
    assert (row.name, row.longitude, row.last) == ("Gin Road", -100.1, date(2026, 6, 30))


def test_the_list_of_stations_says_where_one_lies(people: People) -> None:
    line = "USC00410001,20260601,TMAX,322,,,S,\nUSC00410001,20260601,TMIN,200,,,S,\n"
    page = words(hand_in(people, line, "2026.csv").content.decode())
    assert "Its place is not known" in page
    hand_in(people, line, "2026.csv", stations=LIST)
    row = StationRow.objects.get()
    assert (row.name, row.latitude, row.longitude) == ("GIN ROAD", 33.0, -100.1)


def test_a_file_with_a_fault_is_refused_whole(people: People) -> None:
    answer = hand_in(people, table(90, 91).replace(",91", ",9l"))
    page = words(answer.content.decode())
    assert answer.status_code == 422
    assert "Nothing was taken" in page
    assert "3 tmax_f Must be" in page
    assert not StationRow.objects.exists()


def test_weather_in_place_of_the_list_of_stations_is_refused(people: People) -> None:
    answer = hand_in(people, table(90), stations=table(90))
    assert answer.status_code == 422
    assert "Must be a list of stations" in words(answer.content.decode())
    assert not StationRow.objects.exists()


def test_no_file_is_said_at_its_field(people: People) -> None:
    answer = visitor(people.alice).post("/weather/import", {})
    assert answer.status_code == 422
    assert "Choose a file." in answer.content.decode()


def test_a_lead_takes_a_station_away(people: People) -> None:
    weathered(people.near)
    pk = StationRow.objects.get().pk
    path = f"/weather/{pk}/remove"
    assert path in visitor(people.alice).get("/weather/import").content.decode()
    asked = words(visitor(people.alice).get(path).content.decode())
    assert "All its days go with it, 1 January 2012 to 31 July 2026." in asked
    assert "The stage of no field is worked out from it just now." in asked
    assert visitor(people.alice).post(path).status_code == 422
    assert StationRow.objects.exists()
    answer = visitor(people.alice).post(path, {"sure": "True"}, follow=True)
    said = words(answer.content.decode())
    assert "The weather of Gin Road is taken away. No weather is left here" in said
    assert "Calls are made anew" not in said
    assert not StationRow.objects.exists()


def test_it_is_said_how_many_fields_go_by_a_station(people: People) -> None:
    far = station("FAR", name="Far Road", place=(-101.0, 33.0))
    weathered(people.near, station(), far)
    planted(people.home)
    told = {}
    for row in StationRow.objects.all():
        path = f"/weather/{row.pk}/remove"
        told[str(row)] = words(visitor(people.alice).get(path).content.decode())
    assert "The stage of 1 field is worked out from it. Then another" in told["Gin Road"]
    assert "The stage of no field" in told["Far Road"]
    row = StationRow.objects.get(station="FAR")
    answer = visitor(people.alice).post(f"/weather/{row.pk}/remove", {"sure": "True"}, follow=True)
    assert "taken away. Calls are made anew without it." in words(answer.content.decode())
    row = StationRow.objects.get()
    said = words(visitor(people.alice).get(f"/weather/{row.pk}/remove").content.decode())
    assert "1 field is worked out from it, and no other station is here" in said


@pytest.mark.parametrize("who", ["bob", "gil", "charlie"])
def test_nobody_else_takes_one_away(people: People, who: str) -> None:
    weathered(people.near)
    pk = StationRow.objects.get().pk
    assert visitor(getattr(people, who)).post(f"/weather/{pk}/remove").status_code == 404
    assert StationRow.objects.exists()


def test_only_leads_find_weather_among_the_imports(people: People) -> None:
    assert "/weather/import" in visitor(people.alice).get("/import").content.decode()
    assert "/weather/import" not in visitor(people.bob).get("/import").content.decode()
    assert visitor(people.bob).get("/weather/import").status_code == 404
