"""Journals that were once written replay to the records that they always meant.

The records were worked out by hand. The phone's own replay is held to the same files.
"""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from quarterwalk.journal import read_entry, replay, split_lines, write_entry
from tests.journals.as_json import as_json

HERE = Path(__file__).parent
JOURNALS = sorted(HERE.glob("*.ndjson"))
NAMES = json.loads((HERE / "names.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("journal", JOURNALS, ids=lambda path: path.stem)
def test_a_golden_journal_replays_to_the_record_worked_out_by_hand(journal: Path) -> None:
    expected = json.loads(journal.with_suffix(".expected.json").read_text(encoding="utf-8"))
    entries = [read_entry(line) for line in split_lines(journal.read_bytes())]
    assert as_json(replay(expected["id"], entries, NAMES)) == expected


@pytest.mark.parametrize("journal", JOURNALS, ids=lambda path: path.stem)
def test_a_golden_journal_in_any_order_is_the_same_walk(journal: Path) -> None:
    expected = json.loads(journal.with_suffix(".expected.json").read_text(encoding="utf-8"))
    entries = [read_entry(line) for line in split_lines(journal.read_bytes())]
    random.Random(3).shuffle(entries)
    assert as_json(replay(expected["id"], [*entries, *entries], NAMES)) == expected


@pytest.mark.parametrize("journal", JOURNALS, ids=lambda path: path.stem)
def test_a_line_of_a_golden_journal_is_written_as_it_was(journal: Path) -> None:
    for line in split_lines(journal.read_bytes()):
        assert write_entry(read_entry(line)) == line


def test_every_golden_journal_has_its_record_and_none_is_lost() -> None:
    assert {path.stem for path in JOURNALS} >= {
        "v1-whole-walk",
        "v1-handed-over",
        "v1-undo-and-skips",
        "v1-unfinished",
    }
    assert len(JOURNALS) == len(list(HERE.glob("*.expected.json")))
