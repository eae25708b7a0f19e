"""What is stored, and how it is read again, holds on PostgreSQL as it does on SQLite."""

from __future__ import annotations

from tests.office.on_postgres import passes_on_postgres

STORING = (
    "access",
    "calls_service",
    "cards_service",
    "fields_service",
    "golden_journals",
    "hostile_lines",
    "journal_service",
    "judging",
    "people_service",
    "phones_service",
    "projections",
    "query_counts",
    "sync",
    "walks_service",
)


def test_two_at_once_wait_for_each_other(postgres_url: str) -> None:
    passes_on_postgres(postgres_url, "tests/office/turns_on_postgres.py")


def test_the_tests_of_the_rows_pass_on_postgres(postgres_url: str) -> None:
    passes_on_postgres(postgres_url, *(f"tests/office/test_{name}.py" for name in STORING))
