"""One plain sentence for every call there is."""

from __future__ import annotations

import itertools

import pytest

from quarterwalk.call import CallOptions, Verdict
from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.report.headline import headline
from quarterwalk.walk import Method
from quarterwalk.words import LANGUAGES, spoken_in
from tests.call.made import call, reading
from tests.report.made_reports import unlike

SAYS = {
    "treat": "Too many fleahoppers, and too many squares gone. The rule asks for both.",
    "near": "Fleahoppers are close under the line, and the squares are holding.",
    "hold": "No fleahopper was found, and the squares are holding.",
    "other causes": "No fleahopper was found. Some squares are lost, likely to something else.",
    "squares not told": "Too many fleahoppers, and the squares can't be told yet.",
    "just treated": "Past the line, but treated only days ago. Do not repeat it yet.",
    "weeks differ": "It hangs on the week of squaring, and nobody knows that for certain.",
    "unfinished": "The walk is not finished, so nothing is decided yet.",
    "too early": "Too early. The field is not squaring yet.",
    "over": "The season of the rule is over in this field.",
    "bloom date": "The day of first bloom is needed before anything can be said.",
    "other method": "The rule has no line for this way of counting.",
    "blasted": "Too many fleahoppers, and too many squares blasted. The rule asks for both.",
    "insects alone": "Too many fleahoppers. The rule here goes by insects alone.",
    "sweep": "Too many fleahoppers for a field that has lost so many squares.",
}


@pytest.mark.parametrize("kind", SAYS)
def test_a_call_in_plain_words(kind):
    assert dict(unlike("en"))[kind].headline == SAYS[kind]


SQUARES = ({}, {"healthy": 300}, {"healthy": 248, "missing": 52}, {"healthy": 180, "blasted": 120})
DATES = (
    {"day": -4}, {"day": 3}, {"day": 10}, {"day": 18, "latest": 6}, {"day": 4, "latest": 8},
    {"day": -2, "latest": 5}, {"day": 33}, {"day": 50}, {"day": 26, "bloom": 24},
    {"day": 40, "bloom": 20}, {"day": 10, "treated": 3},
)  # fmt: skip
PLANTS = ((25, 25, 25, 25), (12, 12, 12, 12), (20, 20, 0, 10))


def every_call(name: str, language: str = "en"):
    """Make calls with every mix of insects, squares, dates and walks."""
    rule = load_guideline(name)
    sweeps = 2 if rule.method is Method.SWEEP else None
    for insects, squares, plants in itertools.product((0, 3, 7, 12, 20, 25, 60), SQUARES, PLANTS):
        read = reading(insects, plants=plants, method=rule.method, sweeps=sweeps, **squares)
        for dates in DATES:
            yield read, call(read, rule, options=CallOptions(language=language), **dates)


@pytest.mark.parametrize("name", guideline_names())
def test_every_mix_of_reasons_has_a_headline_that_fits_its_verdict(name):
    many = {Verdict.TREAT: "Too many fleahoppers"}
    never = {
        Verdict.TREAT: ("Few", "No fleahopper", "holding", "under"),
        Verdict.HOLD: ("Too many", "Past the line", "close under"),
        Verdict.LOOK_SOONER: ("season of the rule is over", "Few fleahoppers"),
        Verdict.NONE: ("fleahoppers,", "Treated"),
    }
    for read, made in every_call(name):
        said = headline(made, read)
        assert said[0].isupper()
        assert said.endswith(".")
        assert len(said) < 90
        assert many.get(made.verdict, "") in said
        assert not any(words in said for words in never[made.verdict]), (said, made)


def test_every_headline_there_is_comes_up():
    found = {headline(made, read) for name in guideline_names() for read, made in every_call(name)}
    assert found >= set(SAYS.values()) - {SAYS["other method"]}
    assert len(found) >= 25


@pytest.mark.parametrize("language", [each for each in LANGUAGES if each != "en"])
def test_every_headline_is_worded_in_every_language(language):
    for read, made in every_call("southern-high-plains", language):
        english = headline(made, read)
        with spoken_in(language):
            assert headline(made, read) != english
