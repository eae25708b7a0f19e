"""A text message that any telephone shows, and that fits."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quarterwalk.call import CallOptions, Verdict
from quarterwalk.guideline import guideline_names, load_guideline
from quarterwalk.reading import take_reading
from quarterwalk.report import page, short_text
from quarterwalk.report.text import lettered
from quarterwalk.words import LANGUAGES
from tests.call.made import call, reading
from tests.properties.test_calls import walks
from tests.report.made_reports import report

# The default alphabet of text messages, 3GPP TS 23.038 section 6.2.1, from memory; each of
# its letters is one place of the message.
ALPHABET = set(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)


def test_a_message_by_hand():
    assert short_text(report()) == (
        "Windmill 80, Saturday 20 June: TREAT. Fleahoppers on 100 plants: 34 (25 to 45), line 25."
        " Squares still good of 100: 79 (75 to 83), floor 85. Look again 3 to 4 days after"
        " treating; if not treated, Tuesday 23 June. Label rules come first."
        " Questions? Ask Tamsin Orrick, 555-0142."
    )


@given(
    st.data(),
    st.sampled_from(guideline_names()),
    st.sampled_from(LANGUAGES),
    st.integers(-3, 50),
    st.integers(0, 15),
    st.text(min_size=1, max_size=100).filter(str.strip),
)
@settings(max_examples=200, deadline=None)
def test_every_message_fits_and_every_telephone_shows_it(data, name, language, day, latest, field):
    read = take_reading(data.draw(walks(method=load_guideline(name).method)))
    made = call(read, name, day=day, latest=latest, options=CallOptions(language=language))
    told = report(read, made, day=day, language=language, field=field, advisor=field * 3)
    text = short_text(told)
    assert len(text) < 320
    assert set(text) <= ALPHABET
    look = made.next_look
    if look is not None and made.verdict is not Verdict.NONE:
        assert str(look.latest.day) in text


def test_the_longest_name_still_leaves_room_for_all_the_rest():
    text = short_text(report(field="Caliche " * 12 + "Ends", advisor="A" * 60))
    for words in ("TREAT", "34 (25 to 45), line 25", "79 (75 to 83), floor 85", "Tuesday 23 June"):
        assert words in text
    assert "Label rules come first." in text
    assert "Ask AA" in text


def test_a_call_to_treat_reminds_of_the_label_and_no_other_does():
    assert "Label rules" in short_text(report())
    assert "Label rules" not in short_text(report(reading(3, healthy=300)))


@pytest.mark.parametrize(
    ("typed", "shown"), [("Ñandú é", "Ñandu é"), ("“so” – ’", '"so" - \''), ("{x}", "(x)")]
)
def test_letters_that_telephones_lack_are_put_into_others(typed, shown):
    assert lettered(typed) == shown


def test_text_page_and_picture_round_a_range_alike():
    told = report(reading(33, healthy=252, missing=31))
    assert told.insects == "Fleahoppers on 100 plants: 33 (24.5 to 44), line 25"
    assert "33 fleahoppers on 100 plants, most likely 24.5 to 44." in told.reasons[0]
    assert "most likely 24.5 to 44; the line is 25" in page(told)
