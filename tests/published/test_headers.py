"""Every table says what it is, where it is from, when it was looked up and how near to come."""

from __future__ import annotations

import pytest

from tests.published.tables import HEADER, HERE, read

NAMES = sorted(path.stem for path in HERE.glob("*.csv"))

# Measurements that other tables' values are worked from; a row of theirs is no check.
DATA = {"cities", "schools"}


@pytest.mark.parametrize("name", NAMES)
def test_a_table_has_all_four_fields_and_rows(name):
    table = read(name)
    assert set(table.header) == set(HEADER)
    assert all(table.header.values())
    assert table.rows
    assert all(None not in row and None not in row.values() for row in table.rows)


@pytest.mark.parametrize("name", NAMES)
def test_where_each_row_has_its_source_none_lacks_it(name):
    table = read(name)
    if table.header["source"].startswith("see each row"):
        assert all(row["source"] for row in table.rows)


@pytest.mark.parametrize("name", NAMES)
def test_a_table_is_read_by_a_test(name):
    tests = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py"))
    assert f'"{name}"' in tests


def test_there_are_thirty_checks_and_more():
    assert sum(len(read(name).rows) for name in NAMES if name not in DATA) >= 30
