from __future__ import annotations

from datetime import date

import pytest
from django.http import HttpResponse

from quarterwalk.office.models import FieldRow, SeasonRow
from quarterwalk.office.services.fields import SeasonDates, set_dates
from tests.office.people import People
from tests.office_pages.visits import visitor, words


def give(people: People, **days: str) -> HttpResponse:
    return visitor(people.alice).post(f"/fields/{people.home.public_id}/dates", days)


def test_first_square_may_be_a_range(people: People) -> None:
    answer = give(people, first_square="2026-06-18", first_square_latest="2026-06-22")
    assert answer.status_code == 302
    season = SeasonRow.objects.get(field=people.home)
    assert (season.first_square, season.first_square_latest) == (
        date(2026, 6, 18),
        date(2026, 6, 22),
    )


def test_a_treatment_is_added_to_those_before(people: People) -> None:
    told = SeasonDates(first_square=date(2026, 6, 20))
    set_dates(field=people.home, year=2026, dates=told, treated=[date(2026, 6, 25)])
    give(people, first_square="2026-06-20", treated_0="2026-06-25", treated_1="2026-07-01")
    days = FieldRow.objects.get(pk=people.home.pk).treatments.values_list("on", flat=True)
    assert list(days) == [date(2026, 6, 25), date(2026, 7, 1)]


def test_what_the_form_does_not_ask_for_stays(people: People) -> None:
    told = SeasonDates(first_square=date(2026, 6, 20), variety="early", water="dryland")
    set_dates(field=people.home, year=2026, dates=told, treated=[])
    assert give(people, first_square="2026-06-21").status_code == 302
    season = SeasonRow.objects.get(field=people.home)
    assert (season.variety, season.water) == ("early", "dryland")


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ({"first_square": "2026-06-20", "bloom": "2026-06-20"}, "after first square"),
        (
            {"first_square": "2026-05-01", "planted": "2026-05-14"},
            "at least 14 days after planting",
        ),
        ({"bloom": "2026-07-14"}, "Give the day of first square too."),
        ({"first_square": "2025-06-20"}, "This is the season of 2026"),
        ({"first_square": "soon"}, "Write the day as year-month-day"),
        (
            {"first_square": "2026-06-20", "first_square_latest": "2026-06-18"},
            "must be a day or a range",
        ),
    ],
)
def test_days_that_contradict_one_another_are_refused_and_kept_on_the_page(
    people: People, days: dict[str, str], said: str
) -> None:
    answer = give(people, **days)
    assert answer.status_code == 422
    assert said in words(answer.content.decode())
    assert f'value="{next(iter(days.values()))}"' in answer.content.decode()
    assert not SeasonRow.objects.exists()
