"""A call in Spanish is the same call: other words, the same numbers, no English left over."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.call import Call, CallOptions, Verdict, explain
from quarterwalk.call.explain import headline
from quarterwalk.call.figures import beside, day_words, insects_beside, quarter_word
from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.reading import Reading
from quarterwalk.walk import QUADRANTS, Method
from quarterwalk.words import language_spoken, spoken_in
from tests.call.made import call, codes, reading

SPANISH = CallOptions(language="es")

# Common English words that are no Spanish words.
ENGLISH = set(
    "the of and is are was were it that this these to in on at for from by with or not but if"
    " than then which what why how when where there here field squares square insects plants"
    " plant look looked looking again sooner treat treated hold call walk week weeks squaring"
    " bloom blooms line floor quarter quarters under over past close clear sure day days days'"
    " after before only both first next most likely about more less fewer per nobody no-call"
    " missing blasted flared healthy good lost count counted sweep sweeps spray label bees wind"
    " weeds host standing guideline asks full range published would may might must give finish"
    " find out due been being has have had they them its all any each one two three half third"
    " Monday Tuesday Wednesday Thursday Friday Saturday Sunday January February March April May"
    " June July August September October November December".lower().split()
)


def told(made: Call) -> list[str]:
    """Give all that a call says to people, sentence by sentence."""
    sections = explain(made)
    said = [headline(made), *(s.title for s in sections), str(made)]
    said += [text for s in sections for text in s.sentences]
    return said + [caution.source for caution in made.cautions]


def english_in(text: str, names: set[str]) -> set[str]:
    for name in names:
        text = text.replace(name, "")
    return ENGLISH & set(re.findall(r"[^\W\d_]+", text.lower()))


SOMETHING_OF_EACH = {
    Verdict.TREAT: lambda o: call(reading(34, healthy=237, missing=63), options=o),
    Verdict.LOOK_SOONER: lambda o: call(reading(22, healthy=270, missing=30), options=o),
    Verdict.HOLD: lambda o: call(reading(2, healthy=290, missing=10), options=o),
    Verdict.NONE: lambda o: call(reading(34), day=-2, options=o),
}


@pytest.mark.parametrize("verdict", SOMETHING_OF_EACH)
def test_every_verdict_is_told_in_spanish_without_an_english_word(verdict):
    made = SOMETHING_OF_EACH[verdict](SPANISH)
    assert made.verdict is verdict
    assert made.language == "es"
    for text in told(made):
        assert not english_in(text, set(guideline_names())), text


def test_the_words_of_the_search_are_english():
    for made in SOMETHING_OF_EACH.values():
        sentences = [text for text in told(made(CallOptions())) if text.endswith(".")]
        assert all(english_in(text, set()) for text in sentences)


def test_a_call_to_treat_reads_as_a_grower_would_hear_it():
    made = SOMETHING_OF_EACH[Verdict.TREAT](SPANISH)
    assert headline(made) == "Tratar"
    assert [section.title for section in explain(made)] == [
        "Qué se encontró", "Qué significa", "Qué tan seguro", "Qué sigue", "Tenga cuidado",
    ]  # fmt: skip
    assert str(made).startswith("Tratar. 34 pulgas saltonas en 100 plantas; lo más probable, de ")
    assert "cuadros revisados se perdieron 63, todos faltantes." in str(made)


def test_a_call_without_advice_says_why_in_spanish():
    titles = [section.title for section in explain(SOMETHING_OF_EACH[Verdict.NONE](SPANISH))]
    assert titles == ["Por qué no hay recomendación", "Qué sigue"]


@pytest.mark.parametrize(
    ("value", "limit", "english", "spanish"),
    [(Fraction(1), Fraction(25), "1 fleahopper", "1 pulga saltona"),
     (Fraction(34), Fraction(25), "34 fleahoppers", "34 pulgas saltonas"),
     (Fraction(1, 4), Fraction(25), "fewer than 1 fleahoppers", "menos de 1 pulga saltona"),
     (Fraction(2496, 100), Fraction(25), "just under 25 fleahoppers",
      "poco menos de 25 pulgas saltonas"),
     (Fraction(122, 10), Fraction(121, 10), "12.2 fleahoppers", "12.2 pulgas saltonas")],
)  # fmt: skip
def test_insects_are_counted_in_the_right_number(value, limit, english, spanish):
    assert insects_beside(value, limit) == english
    with spoken_in("es"):
        assert insects_beside(value, limit) == spanish
        assert spanish.startswith(beside(value, limit))


def test_spanish_dates_have_small_letters_and_their_preposition():
    with spoken_in("es"):
        assert day_words(date(2026, 7, 1)) == "miércoles 1 de julio"
        assert day_words(date(2026, 8, 22)) == "sábado 22 de agosto"


def test_no_corner_reads_as_a_no():
    with spoken_in("es"):
        assert [quarter_word(q) for q in QUADRANTS] == ["N-O", "N-E", "S-O", "S-E"]


def test_a_call_leaves_the_language_as_it_was():
    made = SOMETHING_OF_EACH[Verdict.TREAT](SPANISH)
    assert language_spoken() == "en"
    with spoken_in("es"):
        english = SOMETHING_OF_EACH[Verdict.TREAT](CallOptions())
        assert english == SOMETHING_OF_EACH[Verdict.TREAT](CallOptions())
        assert headline(english) == "Treat"
    assert headline(made) == "Tratar"


def test_a_language_without_a_catalogue_is_refused():
    with pytest.raises(ValueError, match="language must be one of"):
        SOMETHING_OF_EACH[Verdict.HOLD](CallOptions(language="fr"))


@st.composite
def readings(draw, method: Method) -> Reading:
    """Walks of any outcome, from a handful of plants to more than a full walk."""
    each = st.integers(0, 40)
    common = st.sampled_from([(25,) * 4, (10,) * 4, (3, 4, 5, 6), (30, 30, 30, 4)])
    plants = draw(common | st.tuples(each, each, each, each.filter(bool)))
    squares = {}
    if draw(st.booleans()):
        most = {"healthy": 3, "missing": 1, "blasted": 1}
        squares = {k: draw(st.integers(0, n * sum(plants) // 2)) for k, n in most.items()}
    sweeps = draw(st.integers(1, 5)) if method is Method.SWEEP else None
    insects = draw(st.integers(0, 3) | st.integers(0, sum(plants) // 2))
    return reading(insects, plants=plants, method=method, sweeps=sweeps, **squares)


NUMBERS = re.compile(r"\d+(?:\.\d+)?")


WHEN = st.fixed_dictionaries({
    "day": st.sampled_from([-3, 0, 6, 10, 17, 25, 40]),
    "latest": st.integers(0, 9),
    "treated": st.none() | st.integers(1, 8),
    "bloom": st.none() | st.integers(10, 50),
})  # fmt: skip


@given(st.data(), st.sampled_from(guideline_names()), WHEN)
@settings(max_examples=200, deadline=None)
def test_both_languages_tell_the_same_numbers_and_the_same_call(data, name, when):
    rule = load_guideline(name)
    read = data.draw(readings(data.draw(st.sampled_from([rule.method, rule.method, *Method]))))
    english, spanish = (
        call(read, rule, **when, options=CallOptions(language=language))
        for language in ("en", "es")
    )
    assert codes(english) == codes(spanish)
    assert without_words(english) == without_words(spanish)
    for said, dicho in zip(told(english), told(spanish), strict=True):
        assert Counter(NUMBERS.findall(said)) == Counter(NUMBERS.findall(dicho)), (said, dicho)
        assert not english_in(dicho, {name}), dicho


def without_words(made: Call) -> Call:
    """Take everything out of a call that depends on its language."""
    wordless = tuple(replace(reason, text="") for reason in made.reasons)
    careful = tuple(replace(caution, text="", source="") for caution in made.cautions)
    return replace(
        made,
        reasons=wordless,
        cautions=careful,
        host_weeds=replace(made.host_weeds, text=""),
        settle=made.settle and replace(made.settle, text=""),
        language="",
    )
