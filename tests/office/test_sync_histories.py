"""Any order, twice, half, torn, tampered with, from two phones: the same end."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.contracts.source import ROOT
from tests.office.judged import judge_all
from tests.office.on_postgres import passes_on_postgres

HISTORIES = int(os.environ.get("QUARTERWALK_HISTORIES", "500"))
AT_ONCE = 20
ON_POSTGRES = "[0] or [20]"
HERE = str(Path(__file__).relative_to(ROOT))


@pytest.mark.django_db
@pytest.mark.parametrize("first", range(0, HISTORIES, AT_ONCE))
def test_however_entries_come_the_same_stands_in_the_end(first: int) -> None:
    judge_all(range(first, min(first + AT_ONCE, HISTORIES)))


@pytest.mark.slow
def test_the_same_stands_on_postgres(postgres_url: str) -> None:
    passes_on_postgres(postgres_url, HERE, "-k", f"in_the_end and ({ON_POSTGRES})")
