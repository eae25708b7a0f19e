"""One language at a time, wherever the sentence is made."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from contextvars import copy_context

import pytest

from quarterwalk.call.figures import listed, odds_words, span
from quarterwalk.words import language_spoken, phrase, phrase_as, phrase_for, spoken_in


def test_english_is_spoken_where_nobody_asks_for_anything_else():
    assert language_spoken() == "en"
    assert phrase("Take care") == "Take care"


def test_languages_nest_and_each_end_gives_back_the_one_before():
    with spoken_in("es"):
        assert phrase("Take care") == "Tenga cuidado"
        with spoken_in("en"):
            assert phrase("Take care") == "Take care"
        assert phrase("Take care") == "Tenga cuidado"
    assert language_spoken() == "en"


def test_a_failure_inside_gives_the_language_back_too():
    with pytest.raises(RuntimeError), spoken_in("es"):
        raise RuntimeError
    assert language_spoken() == "en"


def test_a_language_without_a_catalogue_is_refused():
    with pytest.raises(ValueError, match='one of en, es, got "fr"'), spoken_in("fr"):
        pass


def test_a_language_never_reaches_another_thread():
    with spoken_in("es"), ThreadPoolExecutor(2) as threads:
        told = list(threads.map(lambda _: phrase("Take care"), range(20)))
        assert told == ["Take care"] * 20
        assert phrase("Take care") == "Tenga cuidado"


def test_threads_that_speak_differently_do_not_mix():
    def said(language):
        with spoken_in(language):
            return {phrase("Take care") for _ in range(200)}

    with ThreadPoolExecutor(4) as threads:
        told = list(threads.map(said, ["en", "es"] * 20))
    assert told == [{"Take care"}, {"Tenga cuidado"}] * 20


def test_a_copied_context_keeps_its_language():
    with spoken_in("es"):
        context = copy_context()
    assert context.run(language_spoken) == "es"
    assert language_spoken() == "en"


def test_a_sentence_without_a_wording_stays_english():
    with spoken_in("es"):
        assert phrase("{who} was here", who="Nobody") == "Nobody was here"


def test_a_brace_in_what_fills_a_gap_is_left_as_it_is():
    assert phrase("{number} in {quarter}", number=4, quarter="{x}") == "4 in {x}"


def test_a_short_text_is_worded_for_its_place():
    with spoken_in("es"):
        assert phrase_as("quarter", "NW") == "N-O"
        assert phrase_as("elsewhere", "NW") == "NW"


@pytest.mark.parametrize(
    ("count", "english", "spanish"),
    [(0, "0 plants", "0 plantas"), (1, "1 plant", "1 planta"), (2, "2 plants", "2 plantas")],
)
def test_a_count_of_one_is_worded_as_one(count, english, spanish):
    assert phrase_for(count, "{count} plant", "{count} plants") == english
    with spoken_in("es"):
        assert phrase_for(count, "{count} plant", "{count} plants") == spanish


@pytest.mark.parametrize(
    ("items", "last", "spanish"),
    [(["N-O"], "and", "N-O"), (["N-O", "N-E", "S-E"], "and", "N-O, N-E y S-E"),
     (["Juan", "Inés"], "and", "Juan e Inés"), (["hojas", "hilos"], "and", "hojas e hilos"),
     (["agua", "hielo"], "and", "agua y hielo"), (["1", "2"], "or", "1 o 2"),
     (["7", "8"], "or", "7 u 8"), (["10", "11"], "or", "10 u 11"), (["79", "80"], "or", "79 u 80"),
     (["109", "110"], "or", "109 o 110"), (["este", "oeste"], "or", "este u oeste"),
     (["1", "8"], "and", "1 y 8")],
)  # fmt: skip
def test_spanish_joins_words_by_their_sound(items, last, spanish):
    with spoken_in("es"):
        assert listed(items, last) == spanish
    english = {"y": "and", "e": "and", "o": "or", "u": "or"}
    assert listed(items, last) == " ".join(english.get(w, w) for w in spanish.split())


def test_spanish_tells_odds_and_ranges_with_the_same_figures():
    with spoken_in("es"):
        assert odds_words(0.1) == "alrededor de 1 posibilidad en 10"
        assert odds_words(0.7) == "alrededor de 7 posibilidades en 10"
        assert odds_words(0.995) == "más de 99 posibilidades en 100"
        assert span(24.2, 46.9) == "de 24 a 47"
        assert span(24.2, 24.4) == "alrededor de 24"
        assert span(30.0, 2000.0) == "30 o más"
