"""Archive files name their station in each row, whatever they are called: none is asked about."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse

from quarterwalk.office.models import StationRow
from tests.office.people import People
from tests.office.weathered import station, weathered
from tests.office_pages.visits import visitor, words

ID = "USC00419876"
LIST = f"{ID}  33.1000 -100.2000  700.0 TX FORK MILL                               \n"
OTHER_LIST = LIST.replace(ID, "USC00410001")
BY_STATION = (
    f'"STATION","DATE","TMAX","TMAX_ATTRIBUTES","TMIN"\n"{ID}","2026-06-01","322",",,S","200"\n'
)


def dly() -> str:
    """Write June of one station in fixed columns."""
    rows = []
    for element, value in (("TMAX", 322), ("TMIN", 200)):
        days = [f"{value:5d}  S"] * 30 + ["-9999   "]
        rows.append(f"{ID}202606{element}{''.join(days)}")
    return "\n".join(rows) + "\n"


YEARLY = f"{ID},20260601,TMAX,322,,,S,\n{ID},20260601,TMIN,200,,,S,\n"
FILES = [(dly(), f"{ID}.dly"), (YEARLY, f"{ID}.csv"), (BY_STATION, f"{ID}.csv")]


def hand_in(people: People, content: str, name: str, **more: object) -> HttpResponse:
    told = {"file": SimpleUploadedFile(name, content.encode()), **more}
    return visitor(people.alice).post("/weather/import", told, follow=True)


def listed(text: str = LIST) -> SimpleUploadedFile:
    return SimpleUploadedFile("ghcnd-stations.txt", text.encode())


@pytest.fixture(autouse=True)
def _two_stations(people: People) -> None:
    weathered(people.near, station(), station("CREEK", name="Creek bridge", place=(-100.3, 33.1)))


@pytest.mark.parametrize(("content", "name"), FILES)
def test_an_archive_file_under_its_own_name_is_asked_for_its_list_only(
    people: People, content: str, name: str
) -> None:
    answer = hand_in(people, content, name)
    assert answer.status_code == 422
    page = words(answer.content.decode())
    assert f"The file is of {ID} and does not say where that lies" in page
    assert "ghcnd-stations.txt" in page
    assert "of which station its days are, and" not in page
    assert hand_in(people, content, name, stations=listed()).status_code == 200
    assert StationRow.objects.get(station=ID).name == "FORK MILL"


@pytest.mark.parametrize(("content", "name"), FILES)
def test_no_other_station_is_chosen_for_an_archive_file(
    people: People, content: str, name: str
) -> None:
    before = StationRow.objects.get(station="CREEK").sha256
    for more in ({}, {"stations": listed()}):
        answer = hand_in(people, content, name, station="CREEK", **more)
        assert answer.status_code == 422
        assert "This file names its stations." in words(answer.content.decode())
    assert StationRow.objects.get(station="CREEK").sha256 == before


def test_a_list_without_the_station_is_said(people: People) -> None:
    answer = hand_in(people, dly(), f"{ID}.dly", stations=listed(OTHER_LIST))
    assert answer.status_code == 422
    assert f"This list does not say where {ID} lies." in words(answer.content.decode())


def test_a_later_file_of_a_station_that_is_placed_needs_no_list(people: People) -> None:
    hand_in(people, YEARLY, f"{ID}.csv", stations=listed())
    assert hand_in(people, dly(), f"{ID}.dly").status_code == 200
    assert StationRow.objects.get(station=ID).last == date(2026, 6, 30)


def test_an_only_station_needs_no_place(people: People) -> None:
    StationRow.objects.all().delete()
    assert hand_in(people, dly(), f"{ID}.dly").status_code == 200


def test_a_table_whose_ids_are_its_files_name_is_not_asked_about(people: People) -> None:
    row = f"2026-06-01,70,90,MILL,33.0,{station().station.place[0] + 0.5}"  # type: ignore[index]
    named = f"date,tmin_f,tmax_f,station,latitude,longitude\n{row}\n"
    assert hand_in(people, named, "MILL.csv").status_code == 200
    answer = hand_in(people, named, "MILL.csv", station="CREEK")
    assert "This file names its stations." in words(answer.content.decode())


# the office's day is the first of July
AHEAD = [date(2026, 6, 29) + timedelta(days=at) for at in range(8)]


def run_on(warmer: int = 0, mark: str = "") -> str:
    rows = [
        f"{day},GIN,{70 + warmer},{95 + warmer},{mark if day > date(2026, 7, 1) else ''}"
        for day in AHEAD
    ]
    return "\n".join(["date,station,tmin_f,tmax_f,mark", *rows]) + "\n"


def test_days_after_today_are_taken_as_a_forecast(people: People) -> None:
    StationRow.objects.all().delete()
    page = words(hand_in(people, run_on(), "w.csv").content.decode())
    assert "GIN: 8 days new. 5 days lie after today and are taken as a forecast." in page
    assert "measured until 1 July 2026" in page
    assert StationRow.objects.get().days.endswith("11122222")


def test_a_later_forecast_or_measured_day_replaces_one_that_was_ahead(people: People) -> None:
    StationRow.objects.all().delete()
    hand_in(people, run_on(), "w.csv")
    page = words(hand_in(people, run_on(warmer=3, mark="forecast"), "w.csv").content.decode())
    assert "3 days measured otherwise than before, 5 days forecast otherwise than before" in page
    assert "after today" not in page
    assert " 98.0" in StationRow.objects.get().days


def test_a_day_ahead_that_stood_as_measured_gives_way_too(people: People) -> None:
    StationRow.objects.all().delete()
    hand_in(people, run_on(), "w.csv")
    row = StationRow.objects.get()
    row.days = row.days.replace("11122222", "11111111")
    row.sha256 = "0" * 64
    row.save()
    hand_in(people, run_on(mark="forecast"), "w.csv")
    assert StationRow.objects.get().days.endswith("11122222")
