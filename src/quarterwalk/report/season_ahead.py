"""What comes next in one field's season: what to do, to look for and to wait for, by its days."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from quarterwalk.call.cautions import bloom_in_doubt, weeds_in_doubt
from quarterwalk.crop import RANGE, CropClock, Event, Outlook, load_needs, outlook_of
from quarterwalk.crop.clock import without
from quarterwalk.crop.window import has_four_leaves
from quarterwalk.guideline import Guideline, load_routine
from quarterwalk.report.season_dates import day_told, days_told
from quarterwalk.report.season_end import season_end, season_over
from quarterwalk.report.season_report import SeasonDone
from quarterwalk.report.season_sights import cut_out
from quarterwalk.words import noted, phrase

_Told = tuple[date, str]
"""A day to put sentences in order by, and the sentence."""


@dataclass(frozen=True, slots=True)
class _Season:
    """One season on one day, and the days to plan by."""

    clock: CropClock
    outlook: Outlook

    @property
    def on(self) -> date:
        return self.clock.on

    @property
    def blooming(self) -> bool:
        """Whether it blooms, as far as anybody can tell."""
        return self.clock.weeks.blooming >= 1 / 2

    @property
    def bloom_known(self) -> bool:
        """Whether first bloom was given, also as a day to come, or a flower was seen."""
        return self.clock.bloom is not None or self.clock.given.bloom_to_come is not None

    @property
    def cut_out(self) -> bool:
        """Whether it has cut out, as far as anybody can tell."""
        likely = self.clock.odds[Event.CUTOUT].by(self.on) >= 1 / 2
        return likely or cut_out(self.clock) is not None

    @property
    def weeds_again(self) -> date | None:
        """From when on host weeds may be cleared again."""
        return self.clock.given.bloom_to_come or self.outlook.weeds_again

    @property
    def four_leaves(self) -> bool:
        """Whether four true leaves were seen by now."""
        looks = (without(each, self.clock.set_aside) for each in self.clock.seen)
        return any(has_four_leaves(each, self.clock.needs) for each in looks)

    def day(self, day: date) -> str:
        """Write a day."""
        return day_told(day, self.on)

    def days(self, first: date, last: date) -> str:
        """Write a range of days."""
        return days_told(first, last, self.on)

    @property
    def squaring(self) -> bool:
        """Whether first square has come, as far as anybody can tell."""
        return self.clock.weeks.before < 1 / 2


def what_comes_next(
    clock: CropClock, guideline: Guideline | None, done: SeasonDone
) -> tuple[str, ...]:
    """Say what comes next in a season.

    Parameters
    ----------
    clock : CropClock
        The season.
    guideline : Guideline or None
        The rule that says when this insect stops mattering.
    done : SeasonDone
        Walks so far, and the next look.

    Returns
    -------
    tuple of str
        Sentences in the order of their days, in the language spoken; what is over is
        left out, or told in the past where it still binds.
    """
    season = _Season(clock, outlook_of(clock))
    told = [
        *_look(season, done, guideline),
        *_begin(season, done),
        *_weeds(season),
        *_closest(season),
        *_bloom(season),
        *season_end(clock, guideline),
        *_cutout(season),
    ]
    return tuple(text for _, text in sorted(told, key=lambda pair: max(pair[0], clock.on)))


def _look(season: _Season, done: SeasonDone, guideline: Guideline | None) -> Iterator[_Told]:
    over = guideline is not None and season_over(season.clock, guideline)
    if done.next_look is None or over:
        return
    days = season.days(*done.next_look)
    if done.next_look[1] < season.on:
        yield done.next_look[0], phrase("The next look was due {days}.", days=days)
    else:
        yield done.next_look[0], phrase("The next look is due {days}.", days=days)


def _begin(season: _Season, done: SeasonDone) -> Iterator[_Told]:
    begin = season.outlook.begin
    walked = bool(done.walks) or any(each.walked for each in season.clock.seen)
    if begin is None or walked or season.squaring:
        return
    every, days = load_routine().before_squaring, season.days(*begin)
    if season.four_leaves or season.on > begin[1]:
        text = noted(
            "Begin to walk now, and walk every {every} days: the fourth true leaf came {days}."
        )
    elif season.on >= begin[0]:
        text = noted(
            "Begin to walk now, and walk every {every} days: the fourth true leaf comes {days}."
        )
    else:
        text = noted(
            "Begin to walk about {days}, at four true leaves, and walk every {every} days."
        )
    yield begin[0], phrase(text, days=days, every=every)


def _weeds(season: _Season) -> Iterator[_Told]:
    until, again = season.outlook.weeds_until, season.weeds_again
    if again is not None and again <= season.on and bloom_in_doubt(season.clock.stage()):
        yield season.on, weeds_in_doubt()
    elif again is not None and again <= season.on:
        yield again, _weeds_again(season)
    elif until is not None and season.on <= until:
        yield (
            until,
            phrase(
                "Clear host weeds by {day} at the latest: once there are squares, clearing them"
                " sends the insects into the cotton.",
                day=season.day(until),
            ),
        )
    elif until is not None:
        yield (
            season.on,
            phrase(
                "Leave host weeds standing: {day} was the last safe day to clear them, and"
                " clearing them now sends the insects into the cotton.",
                day=season.day(until),
            ),
        )
    if again is not None and again > season.on:
        yield again, _weeds_later(season, again)


def _weeds_again(season: _Season) -> str:
    """Say that host weeds may be cleared: bloom is known, or is as good as certain."""
    if season.bloom_known:
        return phrase("The field blooms, so host weeds around it may be cleared.")
    return phrase(
        "The field most likely blooms by now, so host weeds around it may be cleared; look for a"
        " white flower first."
    )


def _weeds_later(season: _Season, again: date) -> str:
    if season.bloom_known:
        return phrase(
            "Host weeds may be cleared again from {day}, after bloom.", day=season.day(again)
        )
    return phrase(
        "Host weeds may be cleared again once a white flower is seen, else from {day}: bloom has"
        " come by then 19 times in 20.",
        day=season.day(again),
    )


def _closest(season: _Season) -> Iterator[_Told]:
    closest = season.outlook.closest
    if closest is None or season.blooming:
        return
    first, last = closest
    if last < season.on:
        text = phrase(
            "The closest watch, the first three weeks of squaring, ended {day}.",
            day=season.day(last),
        )
    elif first <= season.on:
        text = phrase(
            "Now is the time to watch closest, {days}: the first three weeks of squaring.",
            days=season.days(first, last),
        )
    else:
        text = phrase(
            "Watch closest {days}, the first three weeks of squaring.",
            days=season.days(first, last),
        )
    yield first, text


def _bloom(season: _Season) -> Iterator[_Told]:
    """Tell from when to look for a flower, and when it is likely, until one was seen."""
    to_come = season.clock.given.bloom_to_come
    if to_come is not None:
        yield to_come, phrase("First bloom is given as {day}.", day=season.day(to_come))
        return
    square, bloom = season.clock.odds[Event.FIRST_SQUARE].likely, season.outlook.bloom
    if season.clock.bloom is not None or season.cut_out or square is None or bloom is None:
        return
    after = timedelta(days=load_needs().value("look_for_bloom_after"))
    begin = min(square + after, bloom[0])
    if season.on < begin:
        yield (
            begin,
            phrase("Look for the first white flower from {day} on.", day=season.day(begin)),
        )
    else:
        yield begin, phrase("Look for the first white flower on every walk now, and note its day.")
    if not season.blooming:
        # else its days stand with where the field stands
        yield begin, phrase("First bloom is likely {days}.", days=season.days(*bloom))


def _cutout(season: _Season) -> Iterator[_Told]:
    span = season.clock.odds[Event.CUTOUT].within(RANGE)
    if span is None or season.cut_out:
        return
    yield span[0], phrase("Cutout is likely {days}.", days=season.days(*span))
