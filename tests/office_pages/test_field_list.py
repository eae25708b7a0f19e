from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.office.models import FieldRow, WalkRow
from quarterwalk.office.services.fields import SeasonDates, set_dates
from tests.office.people import People
from tests.office_pages.visits import visitor, words
from tests.office_pages.walked import judge, walk_in


def the_list(people: People) -> str:
    return visitor(people.alice).get("/").content.decode()


def test_the_list_is_headed_by_the_day_in_the_district(people: People) -> None:
    assert "Wednesday 1 July 2 fields" in words(the_list(people))


def test_a_field_past_both_lines_stands_under_treat(people: People, walk_id: str) -> None:
    told = words(the_list(people))
    assert "Treat 1 Home 80 Gil Orme, week 2, day 11" in told
    # 9 of 25 plants in each quarter with one nymph: 36 on 100; 3 of 5 squares healthy
    assert "36 25" in told
    assert "60 % 85" in told
    assert "Treat 1" in told


def test_a_sprayed_field_is_looked_at_again_and_no_longer_waits(
    people: People, walk_id: str
) -> None:
    dates = SeasonDates(first_square=date(2026, 6, 20))
    set_dates(field=people.home, year=2026, dates=dates, treated=[date(2026, 7, 1)])
    told = words(the_list(people))
    assert "Treat 1" not in told
    # 3 to 4 days after a treatment
    assert "Later 1 Home 80" in told
    assert "4 to 5 July sprayed 1 July" in told


def test_a_field_is_due_on_the_day_that_its_call_asks_for(people: People) -> None:
    judge(people.home)
    # few insects, squares held: every 7 days
    walk_in(people.home, people.bob, date(2026, 6, 24), nymphs=0, lost=0)
    assert "Due today 1 Home 80" in words(the_list(people))
    assert "due today walked 24 June" in words(the_list(people))


def test_a_look_that_is_late_says_by_how_much_and_since_when(people: People) -> None:
    judge(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 23), nymphs=0, lost=0)
    told = words(the_list(people))
    assert "2 fields · 1 late" in told
    assert "Late 1 Home 80" in told
    assert "Due today" not in told
    assert "1 day late due since Tue 30 June, walked 23 June" in told
    page = words(visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode())
    assert "Due now: 1 day late. Due since Tue 30 June, walked 23 June." in page


def test_a_spray_after_a_treat_is_late_in_its_turn(people: People, walk_id: str) -> None:
    walk_in(people.home, people.bob, date(2026, 6, 25), nymphs=9, lost=2)
    WalkRow.objects.filter(walk_id=walk_id).delete()
    dates = SeasonDates(first_square=date(2026, 6, 20))
    set_dates(field=people.home, year=2026, dates=dates, treated=[date(2026, 6, 25)])
    told = words(the_list(people))
    assert "Late 1 Home 80" in told
    assert "2 days late due since Mon 29 June, sprayed 25 June" in told


@pytest.mark.parametrize("walked", [False, True])
def test_past_the_season_of_its_rule_no_look_is_due(people: People, *, walked: bool) -> None:
    judge(people.home)  # a rule that ends at first bloom
    if walked:
        walk_in(people.home, people.bob, date(2026, 6, 23), nymphs=0, lost=0)
    dates = SeasonDates(first_square=date(2026, 6, 5), bloom=date(2026, 6, 29))
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    told = words(the_list(people))
    assert "No look due 1 Home 80 Gil Orme, blooming" in told
    assert f"season over {'walked 23 June' if walked else 'no walk yet'}" in told
    page = words(visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode())
    assert "No look due: season over." in page


def test_a_field_looked_at_in_time_stands_under_later(people: People) -> None:
    judge(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 28), nymphs=0, lost=0)
    assert "Later 1 Home 80" in words(the_list(people))
    assert "Sun 5 July walked 28 June" in words(the_list(people))


def test_a_field_without_a_rule_says_so_instead_of_a_number(people: People) -> None:
    told = words(the_list(people))
    assert "No dates or rule yet 2 East 80 Ida Vane" in told
    assert "no rule yet no walk yet" in told


def test_a_field_that_lost_its_dates_shows_no_call_made_by_them(
    people: People, walk_id: str
) -> None:
    set_dates(field=people.home, year=2026, dates=SeasonDates(), treated=[])
    told = words(the_list(people))
    assert "No dates or rule yet 2" in told
    assert "no dates yet walked today" in told
    assert "treat" not in told


def test_a_judged_field_that_nobody_walked_is_due_for_its_first_look(people: People) -> None:
    judge(people.home)
    assert "Due today 1 Home 80" in words(the_list(people))
    assert "first look no walk yet" in words(the_list(people))


def test_a_field_that_does_not_square_yet_is_first_looked_at_when_it_does(people: People) -> None:
    judge(people.home)
    dates = SeasonDates(first_square=date(2026, 7, 6))
    set_dates(field=people.home, year=2026, dates=dates, treated=[])
    told = words(the_list(people))
    assert "Later 1 Home 80 Gil Orme, before squaring" in told
    assert "Mon 6 July first look, at first square" in told


def test_last_years_call_says_nothing_of_this_season(people: People) -> None:
    judge(people.home)
    walk_in(people.home, people.bob, date(2025, 7, 1), nymphs=9, lost=2)
    told = words(the_list(people))
    assert "Due today 1 Home 80" in told
    assert "first look no walk yet" in told


def test_a_grower_reads_a_word_for_how_sure_and_only_their_own_field(
    people: People, walk_id: str
) -> None:
    told = words(visitor(people.gil).get("/").content.decode())
    assert "Home 80" in told
    assert "East 80" not in told
    assert "treat clear" in told


def test_an_empty_district_leads_the_lead_to_the_import(people: People) -> None:
    FieldRow.objects.filter(district=people.near).delete()
    page = the_list(people)
    assert "There are no fields yet." in page
    assert 'href="/fields/import"' in page


def test_an_empty_district_offers_a_scout_no_import(people: People) -> None:
    FieldRow.objects.filter(district=people.near).delete()
    page = visitor(people.bob).get("/").content.decode()
    assert "The lead of the district hands in their boundaries." in page
    assert 'href="/fields/import"' not in page


@pytest.mark.parametrize(
    ("walked", "group", "why"),
    [
        (date(2026, 6, 27), "Due today 1 Home 80", "due today walked 27 June"),
        (date(2026, 6, 28), "May be done today 1 Home 80", "1 to 2 July walked 28 June"),
        (date(2026, 6, 29), "Later 1 Home 80", "2 to 3 July walked 29 June"),
        (date(2026, 6, 26), "Late 1 Home 80", "1 day late due since Tue 30 June, walked 26 June"),
    ],
)
def test_a_look_of_two_days_may_be_done_on_the_first(
    people: People, walked: date, group: str, why: str
) -> None:
    judge(people.home)
    # more insects than two thirds of the line: again after 3 to 4 days
    walk_in(people.home, people.bob, walked, nymphs=5, lost=0)
    told = words(the_list(people))
    assert group in told
    assert why in told


def test_the_fields_page_says_both_days_of_a_look(people: People) -> None:
    judge(people.home)
    walk_in(people.home, people.bob, date(2026, 6, 28), nymphs=5, lost=0)
    assert "2 fields · 1 may be done today" in words(the_list(people))
    page = words(visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode())
    assert "Due now: 1 to 2 July. Walked 28 June." in page


def test_numbers_are_named_where_no_head_of_a_column_stands(people: People, walk_id: str) -> None:
    for page in (
        the_list(people),
        visitor(people.bob).get(f"/fields/{people.home.public_id}").content.decode(),
    ):
        assert page.count('<small class="narrow unit">insects</small>') == 1
        assert page.count('<small class="narrow unit">square set</small>') == 1
