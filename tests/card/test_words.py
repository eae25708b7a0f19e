"""What a scout reads at the gate: the rule, the season, and which squares to count."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from quarterwalk.crop import CropDates, Event, Sign, WeekOdds, WorkedOut
from quarterwalk.crop.stage import AtOdds
from quarterwalk.guideline import load_guideline
from quarterwalk.report.sheet import walk_sheet
from tests.card.ground import FIRST_SQUARE, ON, content, laid_out


def squaring_since(days: int, **more: object) -> CropDates:
    """Give the dates of a field whose first square was so many days before the card's day."""
    return CropDates(ON - timedelta(days=days), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (0, "In week 1 count squares on every plant."),
        (6, "In week 1 count squares on every plant."),
        (7, "In week 2 count squares on 10 plants in each quarter."),
        (14, "In week 3 count squares on 6 plants in each quarter."),
        (35, "In week 6 count squares on 6 plants in each quarter."),
        (-1, "Outside the season of the guideline no squares are asked for."),
        (46, "Outside the season of the guideline no squares are asked for."),
    ],
)
def test_the_week_says_on_how_many_plants_squares_are_counted(days: int, said: str) -> None:
    assert content(dates=squaring_since(days))["texts"]["sites"] == said


def test_where_the_week_is_not_sure_the_earlier_one_says_how_many() -> None:
    dates = CropDates(ON - timedelta(days=8), ON - timedelta(days=5))
    sites = content(dates=dates)["texts"]["sites"]
    assert sites == "In week 1 or 2 count squares on every plant."


def test_where_no_week_is_known_squares_are_counted_on_every_plant() -> None:
    said = "The squaring week is not known: count squares on every plant."
    assert content(dates=None)["texts"]["sites"] == said
    assert content(None)["texts"]["sites"] == said


def test_a_rule_that_reads_no_squares_asks_for_none() -> None:
    read = content("oklahoma")
    assert all(week["plants_a_stop"] == [0, 0, 0, 0, 0] for week in read["squares"])
    assert "does not ask" in read["texts"]["sites"]


def test_squares_are_counted_where_the_first_loop_passes() -> None:
    weeks = {week["week"]: week["plants_a_stop"] for week in content()["squares"]}
    assert weeks == {1: [5, 5, 5, 5, 5], 2: [5, 5, 0, 0, 0], 3: [3, 3, 0, 0, 0]}


@pytest.mark.parametrize("week", [1, 2, 3])
@pytest.mark.parametrize("number", [0, 4])
def test_phone_and_paper_ask_for_the_squares_of_the_same_plants(week: int, number: int) -> None:
    layout = laid_out(number)
    read = content(layout=layout)
    (told,) = [each for each in read["squares"] if each["week"] == week]
    seen = {name: iter(told["plants_a_stop"]) for name in read["quadrants"]}
    phone = {
        (stop["stop"], plant + 1)
        for stop in read["stops"]
        for plant in range(next(seen[stop["quadrant"]]))
    }
    sheet = walk_sheet(layout, guideline=load_guideline("southern-high-plains"), week=week)
    assert phone == {(row.stop, row.plant) for row in sheet.rows if row.squares}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("southern-high-plains", "The case to treat: 25 or more fleahoppers per 100 plants, and of"
         " 100 squares fewer healthy than 90 in week 1, 85 in week 2 and 75 from week 3 on."),
        ("kansas", "The case to treat: 25 or more fleahoppers per 100 plants, and of 100 squares"
         " 10 or more blasted."),
        ("blacklands", "The case to treat: 10 or more fleahoppers per 100 plants. Squares do not"
         " decide."),
    ],
)  # fmt: skip
def test_the_rule_is_one_sentence(name: str, said: str) -> None:
    assert content(name)["texts"]["rule"] == said


def test_a_rule_whose_line_changes_by_week_says_so() -> None:
    assert content("tennessee-sweep")["texts"]["rule"].startswith(
        "The case to treat: 16 or more fleahoppers per 100 sweeps in week 1 and 2 or 30 or more"
        " fleahoppers per 100 sweeps in week 3."
    )


@pytest.mark.parametrize(
    ("days", "more", "said"),
    [
        (-3, {}, "not squaring yet"),
        (9, {}, "Week 2 of squaring, as far as is known."),
        (32, {}, "more than 30 days ago"),
        (46, {}, "more than 45 days ago"),
        (30, {"bloom": ON}, "is over: it ends at first bloom. The field blooms."),
    ],
)
def test_the_season_is_told_in_words(days: int, more: dict[str, object], said: str) -> None:
    assert said in content(dates=squaring_since(days, **more))["season"]["words"]


def test_the_season_runs_from_first_square_to_the_last_day_that_gets_a_call() -> None:
    season = content()["season"]
    assert (season["from"], season["to"]) == ("2026-06-22", "2026-08-06")  # 45 days on
    until_bloom = content(dates=CropDates(FIRST_SQUARE, bloom=date(2026, 7, 20)))["season"]
    assert until_bloom["to"] == "2026-07-19"
    three_weeks = content("oklahoma")["season"]
    assert three_weeks["to"] == "2026-07-12"  # day 20
    a_week_more = content("coastal-bend", dates=CropDates(FIRST_SQUARE, bloom=date(2026, 7, 20)))
    assert a_week_more["season"]["to"] == "2026-07-26"


def test_a_bloom_date_far_off_makes_no_endless_card() -> None:
    read = content(dates=CropDates(FIRST_SQUARE, bloom=date(2028, 7, 20)))
    assert len(read["weeks"]) == 21


def test_a_recent_spray_is_told_to_whoever_walks() -> None:
    read = content(dates=squaring_since(9, treated=(ON - timedelta(days=2),)))
    care = " ".join(read["texts"]["care"])
    assert "treated on Monday 29 June, 2 days before this walk" in care
    assert "time on the label" in care
    assert "carry water" in care
    assert "licensed applicator" in read["texts"]["prevails"]


def worked_out(**told: object) -> WorkedOut:
    """Give first square as a clock has it: within two days of 1 July."""
    span = (ON - timedelta(days=2), ON + timedelta(days=2), ON)
    odds = WeekOdds(0.0, (1.0,), 0.0)
    return WorkedOut(*span, **{"weeks": odds} | told)  # type: ignore[arg-type]


def of_weeds(**choices: object) -> str:
    (said,) = [text for text in content(**choices)["texts"]["care"] if "host weeds" in text]  # type: ignore[arg-type]
    return str(said)


@pytest.mark.parametrize("days", [1, 12])
def test_before_squaring_the_last_day_for_host_weeds_is_named(days: int) -> None:
    """A card may be read on a later day than its own, so it never says now."""
    last = ON + timedelta(days=days - 1)
    dates = CropDates(ON + timedelta(days=days), ON + timedelta(days=days + 9))
    for worked in (None, worked_out()):
        said = of_weeds(dates=dates, worked_out=worked)
        assert said.startswith(f"Clear host weeds by {last:%A} {last.day} {last:%B} at the latest")


def test_host_weeds_stay_once_any_square_was_seen() -> None:
    worked = worked_out(squares_seen=True)
    said = of_weeds(dates=squaring_since(-3), worked_out=worked)
    assert said.startswith("The first squares are there: leave host weeds standing")


def test_host_weeds_stay_where_flowers_were_seen_that_the_weather_hardly_allows() -> None:
    dates = squaring_since(20, bloom=ON)
    far = AtOdds(ON, None, hardly=True, event=Event.FIRST_BLOOM, sign=Sign.FLOWERS)
    worked = worked_out(bloom=(ON, ON), at_odds=far)
    assert of_weeds(dates=dates, worked_out=worked).startswith("Leave host weeds standing for now")
    worked = worked_out(bloom=(ON, ON))
    assert of_weeds(dates=dates, worked_out=worked).startswith("The field blooms")


@pytest.mark.parametrize(
    ("chance", "said"), [(0.94, "Leave host weeds"), (0.96, "The field most likely blooms")]
)
def test_where_bloom_is_as_good_as_certain_host_weeds_may_go(chance: float, said: str) -> None:
    worked = worked_out(weeks=WeekOdds(0.0, (1 - chance,), chance))
    assert of_weeds(dates=squaring_since(34), worked_out=worked).startswith(said)


def test_a_season_that_weather_has_likely_ended_is_told_with_its_doubt() -> None:
    worked = worked_out(weeks=WeekOdds(0.0, (0.4,), 0.6))
    words = content(dates=squaring_since(25), worked_out=worked)["season"]["words"]
    assert "This day may also lie outside the season" in words
    worked = worked_out(no_flower=date(2026, 6, 29))
    words = content(dates=squaring_since(34), worked_out=worked)["season"]["words"]
    assert "no white flower was seen by Monday 29 June" in words


def test_a_card_can_be_in_spanish() -> None:
    told = content(language="es", dates=squaring_since(8))["texts"]
    assert told["sites"] == "En la semana 2 cuente los cuadros en 10 plantas de cada cuarto."
    assert "pulgas saltonas" in told["rule"]
