"""A grower who reads Spanish reads no English."""

from __future__ import annotations

import re

import pytest

from quarterwalk.report import Linked, day_page, page, short_text
from tests.report.made_reports import longest, page_words, unlike

# Words that no Spanish sentence holds; names of documents are left as they are published.
ENGLISH = re.compile(
    r"\b(the|of|and|is|are|was|were|on|in|it|for|to|or|under|over|that|look|field|walk|week"
    r"|squares?|plants?|insects?|fleahoppers?|line|floor|treat|hold|call|quarter|likely|rule)\b",
    re.IGNORECASE,
)
REPORTS = [*unlike("es"), *(("long", each) for each in longest("es", tries=400))]


@pytest.mark.parametrize("made", [made for _, made in REPORTS], ids=[kind for kind, _ in REPORTS])
def test_no_english_is_left(made):
    published = [made.footing.rule, made.footing.sources, made.call.guideline.name]
    for text in (
        page_words(page(made)),
        short_text(made),
        page_words(day_page([Linked(made)], language="es")),
    ):
        for name in published:
            text = text.replace(name, "")
        assert not ENGLISH.findall(text), text
