"""What a call says, read as a grower would hear it."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from quarterwalk.call import explain
from quarterwalk.call.figures import beside, day_words, exact, listed, number, span
from quarterwalk.call.seen import found
from quarterwalk.reading import take_reading
from quarterwalk.walk import InsectCount, PlantCheck, Quadrant, Walk
from tests.call.made import call, codes, reading, walk


@pytest.mark.parametrize(
    ("value", "limit", "words"),
    [(Fraction(21), Fraction(25), "21"), (Fraction(2496, 100), Fraction(25), "just under 25"),
     (Fraction(251, 10), Fraction(25), "25"), (Fraction(0), Fraction(25), "0"),
     (Fraction(1, 4), Fraction(25), "fewer than 1"), (Fraction(12600, 1000), Fraction(25, 2), "13"),
     (Fraction(122, 10), Fraction(121, 10), "12.2"), (Fraction(847, 10), None, "85")],
)  # fmt: skip
def test_numbers_are_never_rounded_across_their_line(value, limit, words):
    assert beside(value, limit) == words


def test_dates_lists_and_ranges_as_people_say_them():
    assert day_words(date(2026, 7, 4)) == "Saturday 4 July"
    assert listed(["NW"]) == "NW"
    assert listed(["NW", "NE", "SE"]) == "NW, NE and SE"
    assert span(24.2, 46.9) == "24 to 47"
    assert number(Fraction(25, 2)) == "12.5"


@pytest.mark.parametrize("line", ["25", "27.5", "24.9999999", "30.00001", "999999.123456789"])
def test_a_line_is_written_as_it_was_read(line):
    assert number(exact(line)) == line


@pytest.mark.parametrize(
    "text", ["", ".", "-1", "1e99999999", "76/3", "1_0", "nan", "1234567", "２５"]
)
def test_what_is_no_line_is_not_read(text):
    with pytest.raises(ValueError, match=r"such as 25 or 27\.5"):
        exact(text)


def test_a_range_is_never_rounded_across_its_line():
    assert span(24.6, 44.2, Fraction(25)) == "24.6 to 44"
    assert span(19.0, 25.3, Fraction(25)) == "19 to 25"
    assert span(17.2, 24.53, Fraction(25)) == "17 to 24.6"
    assert span(84.6, 90.4, Fraction(85)) == "84.6 to 90"


def test_a_range_reaches_to_what_was_measured():
    assert span(1.2, 845.4, around=Fraction(0)) == "0 to 845"
    assert span(4.0, 39000.0, around=Fraction(0)) == "0 to 1,000 or more"
    assert span(55.6, 98.4, around=Fraction(100)) == "56 to 100"
    assert span(14.0, 27.6, around=Fraction(20)) == "14 to 28"
    assert span(26.0, 39000.0, around=Fraction(100)) == "26 or more"


@pytest.mark.parametrize(("plants", "told"), [(1, "0 to 1,000 or more"), (2, "0 to 845")])
def test_of_none_found_the_range_begins_at_none(plants, told):
    none = InsectCount(0, 0)
    checks = tuple(PlantCheck(Quadrant.NW, n, insects=none) for n in range(1, plants + 1))
    few = take_reading(Walk("any", date(2026, 6, 20), checks))
    low, _ = few.per_100_interval(0.9)
    assert low > 0.5  # of the one distribution, which stays as it is
    assert found(few, None, 0.9) == f"0 fleahoppers per 100 plants, most likely {told}"


def test_a_call_is_told_in_the_order_found_meaning_sure_next_care():
    told = explain(call(reading(34, healthy=237, missing=63)))
    assert [section.title for section in told] == [
        "What was found", "What it means", "How sure", "What next", "Take care",
    ]  # fmt: skip
    assert told[0].sentences[0].startswith("34 fleahoppers on 100 plants, most likely ")
    assert "79 of 100 squares still good" in told[0].sentences[1]


def test_a_call_without_advice_says_why():
    told = explain(call(reading(34), day=-2))
    assert [section.title for section in told] == ["Why there is no call", "What next"]


def test_host_weeds_are_left_standing_while_the_field_squares():
    assert "Leave host weeds standing" in call(reading(0)).host_weeds.text
    assert "Clear host weeds now" in call(reading(0), day=-1).host_weeds.text
    assert "may be cleared" in call(reading(0), day=30, bloom=29).host_weeds.text


def test_printing_a_call_gives_a_sentence_for_the_telephone():
    assert str(call(reading(34, healthy=237, missing=63))).startswith("Treat. 34 fleahoppers on")


def test_a_hot_corner_is_named_and_an_even_field_is_not_called_uneven():
    empty = walk(0)

    def with_insects(where):
        checks = (replace(c, insects=InsectCount(int(where(c)))) for c in empty.checks)
        return call(take_reading(replace(empty, checks=tuple(checks))))

    made = with_insects(lambda check: check.quadrant is Quadrant.SW)
    text = next(r.text for r in made.reasons if r.code == "uneven")
    assert text == "The insects are not spread evenly: 25 of 25 are in the SW quarter."
    assert "uneven" not in codes(with_insects(lambda check: check.plant <= 6))


def test_no_call_prints_a_rate_or_an_interval_of_days_to_spray():
    made = call(reading(34, healthy=237, missing=63))
    words = " ".join(c.text for c in made.cautions)
    assert not any(character.isdigit() for character in words)


def test_losses_are_told_by_kind():
    made = call(reading(0, healthy=270, missing=20, blasted=10))
    text = next(r.text for r in made.reasons if r.code == "losses")
    assert text == "Of 300 squares checked, 30 are lost: 20 missing and 10 blasted."


def test_losses_of_one_kind_and_a_single_loss_say_of_how_many():
    def told(**squares):
        made = call(reading(0, **squares))
        return next(r.text for r in made.reasons if r.code == "losses")

    assert told(healthy=270, missing=30) == (
        "Of 300 squares checked, 30 are lost, all of them missing."
    )
    assert told(healthy=299, blasted=1) == "Of 300 squares checked, one is lost: it is blasted."


@pytest.mark.parametrize(
    ("day", "latest", "when"),
    [(3, 0, "in week 1 of squaring."), (10, 6, "if it is week 1 of squaring."),
     (2, 5, "if it is week 1 of squaring."), (10, 0, "in week 2 of squaring.")],
)  # fmt: skip
def test_a_floor_is_told_for_a_week_only_where_the_week_is_sure(day, latest, when):
    made = call(reading(34, healthy=240, missing=60), day=day, latest=latest)
    text = next(r.text for r in made.reasons if r.code in ("set-under", "set-well-under"))
    assert text.endswith(when)
