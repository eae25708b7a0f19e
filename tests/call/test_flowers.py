"""What a call says where flowers that were seen stand for first bloom."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from quarterwalk.call import Call, Verdict, explain, make_call
from quarterwalk.crop import CropDates, Seen, given_standing
from quarterwalk.guideline import load_guideline
from tests.call.made import reading

SQUARE = date(2026, 6, 10)
SAID = (
    "White flowers were seen on Wednesday 8 July; the day of first bloom was not given,"
    " so that day stands for it."
)


def called(on: date, *flowers: date, rule: str = "southern-high-plains", latest: int = 0) -> Call:
    given = CropDates(SQUARE, SQUARE + timedelta(days=latest))
    _, stage = given_standing(on, given, [Seen(day, bloom=True) for day in flowers])
    found = reading(60, healthy=140, missing=60)
    return make_call(found, stage, load_guideline(rule), on=on)


def told(call: Call) -> dict[str, str]:
    return {reason.code: reason.text for reason in call.reasons}


@pytest.mark.parametrize("latest", [0, 4])
def test_a_rule_that_ends_at_first_bloom_ends_at_the_flowers(latest: int) -> None:
    before = called(date(2026, 7, 10), latest=latest)
    assert before.verdict is Verdict.TREAT
    assert "bloom-seen" not in told(before)
    call = called(date(2026, 7, 10), date(2026, 7, 8), latest=latest)
    assert (call.verdict, call.next_look) == (Verdict.NONE, None)
    assert told(call)["season-over"].endswith("The field blooms.")
    assert told(call)["bloom-seen"] == SAID
    assert call.host_weeds.text == "The field blooms, so host weeds around it may be cleared."


def test_a_rule_that_holds_on_for_a_week_ends_seven_days_after_the_flowers() -> None:
    flowers = date(2026, 7, 8)
    within = called(date(2026, 7, 14), flowers, rule="coastal-bend")
    assert (within.verdict, within.provisional) == (Verdict.TREAT, False)
    assert told(within)["bloom-seen"] == SAID
    assert SAID in next(s.sentences for s in explain(within) if s.title == "What it means")
    assert called(date(2026, 7, 15), flowers, rule="coastal-bend").verdict is Verdict.NONE


def test_nobody_is_asked_for_flowers_that_were_seen() -> None:
    flowers = date(2026, 7, 8)
    for day in (date(2026, 7, 8), date(2026, 7, 12), date(2026, 8, 20)):
        plain = {*told(called(day, rule="coastal-bend"))}
        assert plain & {"look-for-bloom", "bloom-date"}
        seen = {*told(called(day, flowers, rule="coastal-bend"))}
        assert not seen & {"look-for-bloom", "bloom-date"}


def test_flowers_before_first_square_are_left_out_and_this_is_told() -> None:
    for on in (date(2026, 6, 8), date(2026, 6, 20)):
        call = called(on, date(2026, 6, 6))
        assert told(call)["seen-left-out"] == (
            "The look for white flowers of Saturday 6 June can't be true beside first square"
            " given as Wednesday 10 June, and is left out."
        )
        assert "bloom-seen" not in told(call)
