"""The Spanish catalogue is whole, says nothing else than the English, and is what is shipped."""

from __future__ import annotations

import gettext
import re
import struct
from string import Formatter

import pytest

from quarterwalk.words import LANGUAGES
from tests.docs.said import DOCS
from tests.words.catalogue import LOCALE, Entry, entries_of, po_of
from tests.words.extracted import every_sentence, faults, sentences_in

MARK = "to be reviewed by a speaker of the trade"

HEADING, *ENTRIES = entries_of("es")

# In both languages alike.
SAME = {
    *("{verdict} (provisional)", "{field}, {day}: {verdict}, provisional."),
    *("{field}, {day}: {verdict}.", "{outcome}, {note}"),
    *("{acres} acres", "{number} m", "{number} %", "N", "no", "provisional"),
    *("BBCH", "BBCH {code}"),
}

# Days and months have a small letter in Spanish.
SMALL = {
    *("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
    *("January", "February", "March", "April", "May", "June", "July", "August"),
    *("September", "October", "November", "December"),
}


def gaps(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def test_every_language_but_english_has_a_catalogue_and_no_other_lies_about():
    assert {path.name for path in LOCALE.iterdir()} == set(LANGUAGES) - {"en"}


def test_every_sentence_stands_where_it_can_be_gathered():
    assert not faults()


def test_every_sentence_of_the_program_is_in_the_catalogue():
    lacking = every_sentence() - {entry.sentence for entry in ENTRIES}
    assert not lacking, "run tools/words.sh and word what is new"


def test_the_catalogue_holds_no_sentence_that_is_said_no_more():
    assert not {entry.sentence for entry in ENTRIES} - every_sentence()


def test_no_sentence_stands_twice():
    assert len({entry.sentence for entry in ENTRIES}) == len(ENTRIES)


def test_a_count_of_one_has_its_own_form_and_every_other_count_the_second():
    heading = dict(line.split(": ", 1) for line in HEADING.worded[0].splitlines())
    assert heading["Plural-Forms"] == "nplurals=2; plural=(n != 1);"
    assert heading["Language"] == "es"
    assert heading["Content-Type"] == "text/plain; charset=utf-8"


def test_a_sentence_has_as_many_wordings_as_it_needs_and_none_is_empty():
    def whole(entry: Entry) -> bool:
        needed = 1 if entry.sentence.many is None else 2
        return len(entry.worded) == needed and all(text.strip() for text in entry.worded)

    assert not [entry.sentence for entry in ENTRIES if not whole(entry)]


def test_nothing_is_left_in_english():
    left = {e.sentence.one for e in ENTRIES if e.sentence.one in e.worded}
    assert left <= SAME


def test_a_wording_has_the_gaps_of_the_english():
    def fits(entry: Entry) -> bool:
        one, *many = entry.worded
        said = entry.sentence
        # what counts one may say so in words
        singular = gaps(one) - {"count"} == gaps(said.one) - {"count"}
        return singular and all(gaps(text) == gaps(said.many or "") for text in many)

    assert not [entry for entry in ENTRIES if not fits(entry)]


def test_a_wording_begins_and_ends_as_the_english_does():
    def alike(said: str, text: str) -> bool:
        ends = (text[-1] in ".?:") == (said[-1] in ".?:")
        letters = said[0].isalpha() and text[0].isalpha() and said not in SMALL
        return ends and (not letters or said[0].isupper() == text[0].isupper())

    assert not [e for e in ENTRIES for text in e.worded if not alike(e.sentence.one, text)]


def test_a_wording_shouts_at_nobody_and_writes_no_corner_as_no():
    def plain(text: str) -> bool:
        shouted = set("!¡") & set(text)
        return not shouted and text.count("?") == text.count("¿") and not re.search(r"\bNO\b", text)

    assert not [entry for entry in ENTRIES if not all(map(plain, entry.worded))]


def trade_words() -> dict[str, str]:
    """Give the words of the trade and their Spanish, from the page for translators."""
    page = (DOCS / "translating.md").read_text(encoding="utf-8")
    return dict(re.findall(r"^\| ([a-z' ]+) \| (\*[^|]+\*) \|", page, re.MULTILINE))


def test_the_page_for_translators_lists_the_words_of_the_trade():
    assert {"hold", "square set", "line", "floor", "quarter"} <= trade_words().keys()


def test_a_wording_with_a_word_of_the_trade_is_marked_for_review():
    trade = re.compile(rf"\b({'|'.join(map(re.escape, trade_words()))})s?\b", re.IGNORECASE)
    held = [e for e in ENTRIES if trade.search(f"{e.sentence.one} {e.sentence.many or ''}")]
    assert held
    assert not [entry.sentence for entry in held if MARK not in entry.remarks]


@pytest.mark.parametrize(
    ("word", "stem"),
    [("squares?", "cuadro"), ("fleahoppers?", "pulgas? saltona"), ("floors?", "mínimo"),
     ("square set", "retención de cuadros"), ("nymphs?", "ninfa"), ("blasted", "seco"),
     ("host weeds?", "malezas? hospedera"), ("sweeps", "golpes? de red"), ("guideline", "guía")],
)  # fmt: skip
def test_a_word_of_the_trade_is_always_worded_the_same(word, stem):
    asked = re.compile(rf"\b{word}\b", re.IGNORECASE)
    held = [e for e in ENTRIES if asked.search(re.sub(r"{.*?}", "", e.sentence.one))]
    odd = [e.worded for e in held for t in e.worded if not re.search(stem, t, re.IGNORECASE)]
    assert held
    assert not odd


def test_what_is_shipped_is_what_the_translator_wrote():
    shipped = po_of("es").with_suffix(".mo").read_bytes()
    # magic number, version, number of texts: the heading is one of them
    assert struct.unpack("<III", shipped[:12])[2] == len(ENTRIES) + 1
    with po_of("es").with_suffix(".mo").open("rb") as file:
        spoken = gettext.GNUTranslations(file)
    for entry in ENTRIES:
        assert answers(spoken, entry) == entry.worded, "run tools/words.sh"


def answers(spoken: gettext.GNUTranslations, entry: Entry) -> tuple[str, ...]:
    said = entry.sentence
    if said.many is not None:
        return tuple(spoken.ngettext(said.one, said.many, count) for count in (1, 2))
    if said.context is not None:
        return (spoken.pgettext(said.context, said.one),)
    return (spoken.gettext(said.one),)


@pytest.mark.parametrize(
    "line",
    ["phrase(f'{count} plants')", "phrase('One. ' + two)", "noted('a' if b else 'c')",
     "phrase_for(n, 'one', f'{n}')", "f'{a} {phrase(\"Both are past.\")}'"],
)  # fmt: skip
def test_a_sentence_that_could_not_be_gathered_is_refused(line):
    with pytest.raises(ValueError, match="must stand"):
        list(sentences_in(line))
