"""What a call says, read as a grower would hear it."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from quarterwalk.call import explain
from quarterwalk.call.figures import beside, day_words, listed, number, span
from quarterwalk.reading import take_reading
from quarterwalk.walk import InsectCount, Quadrant
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
    assert text == "Of 30 squares lost, 20 are missing and 10 are blasted."
