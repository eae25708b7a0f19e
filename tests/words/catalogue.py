"""A catalogue as its translator writes it, read plainly."""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass
from pathlib import Path

from tests.words.extracted import SOURCE, Sentence

LOCALE = SOURCE / "locale"


@dataclass(frozen=True)
class Entry:
    """One sentence and its wordings: one, or one for each plural form."""

    sentence: Sentence
    worded: tuple[str, ...]
    remarks: tuple[str, ...]


def po_of(language: str) -> Path:
    return LOCALE / language / "LC_MESSAGES" / "quarterwalk.po"


def entries_of(language: str) -> list[Entry]:
    """Read a catalogue; its first entry is its heading."""
    blocks = po_of(language).read_text(encoding="utf-8").strip().split("\n\n")
    return [_entry(block.splitlines()) for block in blocks]


def _entry(lines: list[str]) -> Entry:
    told: dict[str, str] = {}
    remarks = []
    last = ""
    for line in lines:
        if line.startswith("#"):
            remarks.append(line.removeprefix("# "))
            continue
        found = re.fullmatch(r'(?:(msg\w+(?:\[\d\])?) )?(".*")', line)
        if found is None:
            raise ValueError(f"not a line of a catalogue: {line}")
        last = found[1] or last
        told[last] = told.get(last, "") + ast.literal_eval(found[2])
    sentence = Sentence(told.get("msgctxt"), told["msgid"], told.get("msgid_plural"))
    worded = tuple(text for key, text in told.items() if key.startswith("msgstr"))
    return Entry(sentence, worded, tuple(remarks))
