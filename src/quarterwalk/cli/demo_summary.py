"""What the demo tells: how each field stands, one call in full, and how it fits the truth."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from quarterwalk.call import Call, Verdict
from quarterwalk.call.figures import beside, number
from quarterwalk.call.verdict import VERDICT_WORDS
from quarterwalk.cli.command_lines import command_lines, program_words
from quarterwalk.cli.judged import Judgement, print_call
from quarterwalk.cli.reports import say_where
from quarterwalk.cli.screen import Ink, columns, inked, say
from quarterwalk.demo import (
    FIELDS,
    PLANTED,
    REPORTS,
    SEEN,
    WALKS,
    WEATHER,
    DemoField,
    Season,
    compare,
    rule_says_treat,
)
from quarterwalk.guideline import load_guideline
from quarterwalk.reading import Reading
from quarterwalk.units import hectares_from_acres

_GROUPS = (
    (Verdict.TREAT, "Wants a decision", Ink.TREAT),
    (Verdict.LOOK_SOONER, "Look sooner", Ink.LOOK_SOONER),
    (Verdict.HOLD, "Fine", Ink.HOLD),
    (Verdict.NONE, "No call", Ink.NONE),
)

_FILES = (
    ("walks.csv", "every plant of {walks} walks"),
    ("plantings.csv", "the dates of {fields} fields"),
    ("planted.csv", "the same without first square and bloom, for the clock to work out"),
    ("weather.csv", "every day of two stations since 2006"),
    ("seen.csv", "what was seen of the crops between walks"),
    ("fields.geojson", "boundaries, gates and rows of the {fields} fields"),
    ("truth.csv", "what was true of the field at each walk"),
    ("calls.json", "every call with all that led to it"),
    ("calls.csv", "one row a call, for a spreadsheet"),
    ("reports", "what each grower is told of the last walk"),
    ("seasons", "each field's season by weather and by what was seen"),
    ("cards", "when a walk may end early, weeks 1 to 3, to print"),
)

# Reasons that are the whole story of a field when they come first.
_WHOLE_STORY = frozenset({"finish-walk", "recently-treated", "weeks-differ"})

_MEANS = {
    "both-past": "Both are past.",
    "insects-only": "Only the insects are past.",
    "other-causes": "Look for other causes.",
    "squares-only": "Squares are being lost.",
    "insects-near": "The line is close.",
    "uneven": "The insects are not spread evenly.",
    "bloom-date": "Give the date of first bloom.",
}

# Calls that differ from the truth; more of them would bury the rest. [count]
_MOST_TOLD = 5


@dataclass(frozen=True, slots=True)
class DemoRun:
    """A season, what was made of it, and where it lies.

    `words` follow ``quarterwalk`` in the command that judges the walks again.
    """

    season: Season
    judged: Sequence[Judgement]
    folder: Path
    words: Sequence[str]
    metric: bool


def print_summary(done: DemoRun) -> None:
    """Print how the district stands.

    Parameters
    ----------
    done : DemoRun
        The season and its calls.
    """
    _opening(done)
    last = {judged.head.field: judged for judged in done.judged}
    print(inked("HOW EACH FIELD STANDS AFTER ITS LAST WALK", Ink.HEAD))
    print()
    for verdict, title, ink in _GROUPS:
        group = [f for f in done.season.district.fields if last[f.name].call.verdict is verdict]
        if group:
            print(inked(f"{title}: {_count(len(group), 'field')}", ink))
            for field in group:
                _field(field, last[field.name], done)
            print()
    order = [verdict for verdict, _, _ in _GROUPS]
    example = min(last.values(), key=lambda j: order.index(j.call.verdict))
    print(inked("ONE CALL IN FULL", Ink.HEAD))
    print()
    print_call(example)
    _truth(done)
    _closing(done)


def _opening(done: DemoRun) -> None:
    district = done.season.district
    span = f"{_day(district.first_day)} to {_day(district.last_day)} {district.last_day.year}"
    say(
        f"{district.name} is an invented district: {len(district.fields)} fields,"
        f" {_area(district.acres, done)}, walked {len(done.judged)} times from {span}."
        " No place, person or count in it is real."
    )
    say(
        f"{district.advisor} advises here; {' and '.join(district.scouts)} scout."
        f" The walks are judged by the guideline {district.guideline}."
    )
    print()


def _area(acres: int, done: DemoRun) -> str:
    shown = round(hectares_from_acres(acres)) if done.metric else acres
    return f"{shown:,} {'hectares' if done.metric else 'acres'}"


def _field(field: DemoField, judged: Judgement, done: DemoRun) -> None:
    """Print one field: a row of facts, and the reason below."""
    fields = done.season.district.fields
    name = max(len(f.name) for f in fields)
    area = max(len(_area(f.acres, done)) for f in fields)
    grower = max(len(f.grower) for f in fields)
    look = judged.call.next_look
    due = "no look due" if look is None else f"look again {_day(look.latest)}"
    facts = f"  {field.name:<{name}}  {_area(field.acres, done):>{area}}"
    full = f"{facts}  {field.grower:<{grower}}"
    widest = len(full) + len("  look again 30 June")
    print(inked(f"{full if widest <= columns() else facts}  {due}", Ink.HEAD))
    say(plain_reason(judged.reading, judged.call), indent=4)


def plain_reason(reading: Reading, call: Call) -> str:
    """Say in a line or two why a call is what it is.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    call : Call
        What was decided.

    Returns
    -------
    str
    """
    first, line = call.reasons[0], call.guideline.line
    if first.code in _WHOLE_STORY or reading.per_100 is None or line is None:
        return first.text
    told = beside(reading.per_100, line)
    insects = "fleahopper" if told == "1" else "fleahoppers"
    means = [_MEANS[r.code] for r in call.reasons if r.code in _MEANS]
    if call.provisional:
        means.append("The call is provisional.")
    found = f"{told} {insects} on 100 plants (line {number(line)})"
    return " ".join([f"{found}, {_squares(reading, call)}.", *means])


def _squares(reading: Reading, call: Call) -> str:
    if not reading.set_readable or reading.square_set is None:
        return "too few squares to go by"
    floor = call.guideline.floor
    limit = None if floor is None else 100 * floor
    beside_floor = "" if limit is None else f" (floor {number(limit)})"
    return f"{beside(100 * reading.square_set, limit)} of 100 squares good{beside_floor}"


def _truth(done: DemoRun) -> None:
    """Print how the calls fit what is true of the fields."""
    guideline = load_guideline(done.season.district.guideline)
    says = [rule_says_treat(each.truth, guideline) for each in done.season.walks]
    compared = compare([judged.call for judged in done.judged], says)
    print(inked("AGAINST THE TRUTH", Ink.HEAD))
    print()
    say(
        "The walks were drawn from fields whose true insects and squares are known."
        f" Of {compared.calls} calls, {compared.agree} agree with what the guideline says of"
        " the true field: treat, or do not.",
        indent=2,
    )
    print()
    print(inked(f"    {'how sure':<12}{'calls':>6}{'agree':>7}", Ink.QUIET))
    for tally in compared.tallies:
        print(f"    {tally.sure.value:<12}{tally.calls:>6}{tally.agree:>7}")
    print()
    missed = sorted((*compared.cautious, *compared.early))
    for index in missed[:_MOST_TOLD]:
        say(_missed(done.judged[index], treat=index in compared.cautious), indent=2, hanging=4)
    if len(missed) > _MOST_TOLD:
        say(f"And {len(missed) - _MOST_TOLD} more.", indent=2)
    if missed and all(done.judged[i].call.verdict is not Verdict.HOLD for i in missed):
        say("None of these calls says hold: the field is looked at again within days.", indent=2)
    if missed:
        print()


def _missed(judged: Judgement, *, treat: bool) -> str:
    said = VERDICT_WORDS[judged.call.verdict].lower()
    true = "treat" if treat else "not to treat"
    sure = "" if judged.call.sure is None else f" ({judged.call.sure.value})"
    where = f"{judged.head.field} on {_day(judged.head.date)}"
    return f"{where}: the call says {said}{sure}; by the true numbers the guideline says {true}."


def _closing(done: DemoRun) -> None:
    print(inked("WHERE IT IS", Ink.HEAD))
    print()
    print(f"  {done.folder}{os.sep}")
    counts = {"walks": len(done.judged), "fields": len(done.season.district.fields)}
    for name, holds in _FILES:
        say(f"{name:<14}  {holds.format(**counts)}", indent=4, hanging=20)
    print()
    say_where(done.folder / REPORTS, len(done.season.district.fields), one_pdf=False)
    print()
    print(inked("TRY NEXT", Ink.HEAD))
    print()
    guideline = done.season.district.guideline
    for does, words in (
        ("all calls, one line each:", [*done.words, "--brief"]),
        ("how far each crop is, by weather and by what was seen:", _stage_words(done)),
        ("where to walk today:", ["quarters", _beside(done.words[1], FIELDS)]),
        ("the rule itself, with its sources:", ["guidelines", guideline]),
    ):
        print(f"  {does}")
        print("\n".join(command_lines([*program_words(), *words], indent=4)))


def _stage_words(done: DemoRun) -> list[str]:
    walks = done.words[1]
    told = [_beside(walks, name) for name in (PLANTED, WEATHER, SEEN, FIELDS)]
    options = zip(("--weather", "--seen", "--fields"), told[1:], strict=True)
    last = done.season.district.last_day.isoformat()
    return ["stage", told[0], *(word for pair in options for word in pair), "--on", last, "--brief"]


def _beside(walks: str, name: str) -> str:
    """Name a file that lies beside the walks, as the words of the command name them."""
    return walks.removesuffix(WALKS) + name


def _count(number_of: int, noun: str) -> str:
    return f"{number_of} {noun}" if number_of == 1 else f"{number_of} {noun}s"


def _day(day: date) -> str:
    return f"{day.day} {day:%B}"
