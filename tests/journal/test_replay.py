"""What the entries of a walk come to."""

from __future__ import annotations

from datetime import date

import pytest

from quarterwalk.journal import (
    Entry,
    Key,
    LostSquares,
    Note,
    QuadrantNoted,
    Sight,
    Sighted,
    Standing,
    WalkClosed,
    WalkRecord,
    WalkState,
    replay,
)
from quarterwalk.journal.body import DeviceCount
from quarterwalk.walk import InsectCount, Method, Quadrant
from tests.journal.made import (
    FIELD,
    JOSS,
    JOSSES,
    NAMES,
    WALK,
    WEN,
    WENS,
    closed,
    entry,
    handed,
    opened,
    plant,
    skipped,
    struck,
)


def walked(*entries: Entry) -> WalkRecord:
    return replay(WALK, entries, NAMES)


def seqs(record: WalkRecord) -> list[int]:
    return [check.key.seq for check in record.checks]


def test_a_walk_of_which_nothing_is_here_is_unopened() -> None:
    record = walked()
    assert record.state is WalkState.UNOPENED
    assert (record.field, record.on, record.waiting, record.checks) == (None, None, 0, ())


def test_plants_may_be_here_before_their_opening() -> None:
    record = walked(entry(2, plant(1)))
    assert record.state is WalkState.UNOPENED
    assert record.method is None
    assert seqs(record) == [2]


def test_the_opening_says_field_card_and_how_insects_are_counted() -> None:
    record = walked(opened(Method.BUCKET, card="0" * 64, label="t-7", plan="early"))
    assert (record.state, record.field, record.method) == (WalkState.OPEN, FIELD, Method.BUCKET)
    assert (record.card, record.label, record.plan) == ("0" * 64, "t-7", "early")


def test_a_walk_whose_opening_was_struck_is_void_and_still_says_which_field() -> None:
    record = walked(opened(), entry(2, plant(1)), entry(3, struck(1)))
    assert (record.state, record.field) == (WalkState.VOID, FIELD)


def test_the_opening_device_comes_first_whatever_its_id() -> None:
    assert JOSSES < WENS
    record = walked(entry(7, plant(1), device=JOSSES), opened(), entry(2, plant(1)))
    assert [check.key for check in record.checks] == [Key(WENS, 2), Key(JOSSES, 7)]
    assert record.devices == (WENS, JOSSES)


def test_entries_of_another_walk_and_of_none_are_passed_over() -> None:
    other = entry(9, plant(1), walk=f"{WENS}-8")
    loose = entry(10, Note("Hail to the west.", field=FIELD), walk=None)
    assert walked(opened(), other, loose) == walked(opened())


def test_a_strike_does_not_reach_into_another_walk() -> None:
    record = walked(opened(), entry(2, plant(1)), entry(9, struck(2), walk=f"{WENS}-8"))
    assert seqs(record) == [2]


def test_a_strike_reaches_its_own_device_only() -> None:
    record = walked(opened(), entry(2, plant(1)), entry(3, struck(2), device=JOSSES))
    assert seqs(record) == [2]


def test_three_strikes_in_a_row_strike() -> None:
    strikes = [entry(3, struck(2)), entry(4, struck(3)), entry(5, struck(4))]
    assert seqs(walked(opened(), entry(2, plant(1)), *strikes[:1])) == []
    assert seqs(walked(opened(), entry(2, plant(1)), *strikes[:2])) == [2]
    assert seqs(walked(opened(), entry(2, plant(1)), *strikes)) == []


def test_the_second_count_of_a_plant_is_kept_apart() -> None:
    record = walked(opened(), entry(2, plant(1)), entry(3, plant(1)), entry(4, skipped(1)))
    assert seqs(record) == [2]
    assert record.doubled == (Key(WENS, 3), Key(WENS, 4))


def test_two_scouts_may_count_plants_of_one_number() -> None:
    record = walked(opened(), entry(2, plant(1)), entry(5, plant(1), device=JOSSES))
    assert [check.scout for check in record.checks] == ["Wen Adair", "Joss Pell"]


def test_a_name_given_with_the_plant_is_the_scout() -> None:
    record = walked(opened(), entry(2, plant(1, scout="Ada")), entry(3, plant(1)))
    assert [check.scout for check in record.checks] == ["Ada", "Wen Adair"]


def test_a_person_whose_name_is_not_known_is_called_by_the_id() -> None:
    assert replay(WALK, [opened(), entry(2, plant(1))], {}).checks[0].scout == WEN


def test_sweeps_that_were_not_told_make_a_sample_unusable() -> None:
    record = walked(
        opened(Method.SWEEP),
        entry(2, plant(1)),
        entry(3, plant(1, sweeps=25)),
        entry(4, plant(2, insects=None)),
        entry(5, skipped(3)),
    )
    assert seqs(record) == [3, 4, 5]
    assert record.unusable == (Key(WENS, 2),)
    assert record.doubled == ()


def test_a_check_is_of_the_day_on_the_scouts_watch() -> None:
    evening = entry(2, plant(1), at="2026-06-18T22:30:00.000-05:00")
    assert walked(opened(), evening).on == date(2026, 6, 18)


def test_a_walk_is_of_the_last_day_of_its_checks() -> None:
    record = walked(
        opened(),
        entry(2, plant(1, on=date(2026, 6, 17))),
        entry(3, plant(2, on=date(2026, 6, 15))),
        entry(4, Note("Filed late."), at="2026-06-30T08:00:00.000-05:00"),
    )
    assert record.on == date(2026, 6, 17)
    assert walked(opened()).on == date(2026, 6, 18)


def test_a_closed_walk_waits_for_what_it_knows_of() -> None:
    end = entry(9, closed(**{WENS: 3, JOSSES: 2}))
    assert walked(opened(), end).waiting == 3
    assert walked(opened(), end, entry(2, plant(1)), entry(5, plant(1), device=JOSSES)).waiting == 1


def test_what_a_struck_closing_told_is_still_waited_for() -> None:
    assert walked(opened(), entry(9, closed(**{WENS: 5})), entry(10, struck(9))).waiting == 2


def test_of_what_a_device_told_several_times_the_largest_count_holds() -> None:
    twice = [entry(2, handed(JOSS, 2)), entry(5, handed(JOSS, 5))]
    assert walked(opened(), *twice, entry(7, plant(1), device=JOSSES)).waiting == 2
    assert walked(opened(), *twice, entry(9, closed(**{WENS: 4}))).waiting == 1


def test_more_entries_than_were_told_make_up_for_no_other_device() -> None:
    told = entry(2, closed(**{WENS: 2, JOSSES: 4}))
    assert walked(opened(), told, entry(3, plant(1)), entry(4, plant(2))).waiting == 4


def test_a_closed_walk_says_when_and_what_the_phone_told() -> None:
    stood = Standing(plants=1, insects=0, squares=0, healthy=0)
    body = WalkClosed((DeviceCount(WENS, 2),), stood)
    record = walked(opened(), entry(2, body, at="2026-06-18T09:30:00.000-05:00"))
    assert (record.state, record.standing) == (WalkState.CLOSED, stood)
    assert record.closed_at is not None
    assert record.closed_at.isoformat() == "2026-06-18T09:30:00-05:00"
    assert walked(opened(), entry(2, body), entry(3, struck(2))).closed_at is None


def test_the_last_closing_that_holds_names_the_stop_plan_that_ended_the_walk() -> None:
    counted = (DeviceCount(WENS, 2),)
    early, late = (entry(n, WalkClosed(counted, plan=name)) for n, name in ((2, "a"), (5, "b")))
    assert walked(opened(), early).plan == "a"
    assert walked(opened(), early, late).plan == "b"
    assert walked(opened(), early, entry(3, struck(2))).plan is None
    assert walked(opened(), early, entry(5, WalkClosed(counted))).plan is None
    assert walked(opened(plan="z"), entry(2, WalkClosed(counted))).plan == "z"


OVER, BACK = entry(2, handed(JOSS, 2)), entry(8, handed(WEN, 2), device=JOSSES)
GOES_ON = entry(7, plant(1), device=JOSSES)
STATES = {
    "given to Joss, who has not gone on": ([OVER], WalkState.HANDED_OVER),
    "Joss went on": ([OVER, GOES_ON], WalkState.OPEN),
    "Joss gave it back": ([OVER, GOES_ON, BACK], WalkState.HANDED_OVER),
    "and Wen went on": ([OVER, GOES_ON, BACK, entry(3, plant(2))], WalkState.OPEN),
    "Joss went on, on Wen's phone": ([OVER, entry(3, plant(1), by=JOSS)], WalkState.OPEN),
    "Wen took it back": ([OVER, entry(3, struck(2))], WalkState.OPEN),
    "and gave it again": ([OVER, entry(3, struck(2)), entry(4, struck(3))], WalkState.HANDED_OVER),
    "Joss closed it": (
        [OVER, GOES_ON, entry(8, closed(**{JOSSES: 2}), device=JOSSES)],
        WalkState.CLOSED,
    ),
}


@pytest.mark.parametrize("name", STATES)
def test_a_walk_is_handed_over_until_somebody_goes_on(name: str) -> None:
    entries, state = STATES[name]
    assert walked(opened(), *entries).state is state


def test_notes_and_sightings_that_hold_are_kept_in_order() -> None:
    record = walked(
        opened(),
        entry(2, QuadrantNoted(Quadrant.SE, lost=LostSquares.SMALL)),
        entry(3, Sighted(Sight.HOST_WEEDS)),
        entry(4, Note("Hail.")),
        entry(5, Note("Rain.")),
        entry(6, struck(4)),
    )
    assert [(n.key.seq, n.said.lost) for n in record.quadrant_notes] == [(2, LostSquares.SMALL)]
    assert [(s.key.seq, s.said.what) for s in record.sightings] == [(3, Sight.HOST_WEEDS)]
    assert [(n.key.seq, n.said.text) for n in record.notes] == [(5, "Rain.")]


def test_a_plant_that_was_looked_at_is_not_one_that_was_passed_over() -> None:
    looked, passed = walked(
        opened(), entry(2, plant(1, insects=InsectCount(1, 2))), entry(3, skipped(2))
    ).checks
    assert (looked.skipped, looked.insects) == (False, InsectCount(1, 2))
    assert (passed.skipped, passed.insects) == (True, None)
