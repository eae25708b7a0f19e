"""A GeoPackage opened so that nothing in it can act: it is read, and only where asked."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from quarterwalk.files.boundary_limits import MOST_BYTES, MOST_STEPS
from quarterwalk.files.refusal import refuse

SQLITE_MAGIC = b"SQLite format 3\x00"
"""How a database file begins, GeoPackages among them."""

_STEPS_AT_ONCE = 10_000
_WHOLE = "a GeoPackage that is whole"
_TABLES = "sqlite_master"


class Database:
    """Tables of a GeoPackage, read by name.

    Parameters
    ----------
    file : str
        What errors call it.
    link : sqlite3.Connection
        Opened by `opened`.
    """

    def __init__(self, file: str, link: sqlite3.Connection) -> None:
        self.file = file
        self._link = link
        self._open = {_TABLES}
        self._left = MOST_STEPS // _STEPS_AT_ONCE
        link.set_authorizer(self._may)
        link.set_progress_handler(self._spent, _STEPS_AT_ONCE)

    def _may(self, action: int, first: str | None, *_: str | None) -> int:
        """Allow nothing but reading a table that was asked for."""
        if action == sqlite3.SQLITE_SELECT:
            return sqlite3.SQLITE_OK
        if action == sqlite3.SQLITE_READ and (first or "").lower() in self._open:
            return sqlite3.SQLITE_OK
        return sqlite3.SQLITE_DENY

    def _spent(self) -> int:
        self._left -= 1
        return self._left < 0

    def has(self, table: str) -> bool:
        """Tell whether there is a table of that name that is no view and runs no code."""
        query = (
            "SELECT name FROM sqlite_master "
            "WHERE type = 'table' AND rootpage > 0 AND name = ? COLLATE NOCASE"
        )
        return len(list(self._link.execute(query, (table,)))) == 1

    def columns(self, table: str) -> tuple[str, ...]:
        """Name the columns of a table."""
        self._allow(table)
        cursor = self._link.execute(f"SELECT * FROM {_quoted(table)} LIMIT 0")
        return tuple(str(column[0]) for column in cursor.description)

    def rows(self, table: str, *columns: str) -> Iterator[tuple[Any, ...]]:
        """Give some columns of each row of a table."""
        self._allow(table)
        listed = ", ".join(map(_quoted, columns))
        return iter(self._link.execute(f"SELECT {listed} FROM {_quoted(table)}"))

    def _allow(self, table: str) -> None:
        if not self.has(table):
            refuse(self.file, table, "a GeoPackage whose tables are all there, and no views")
        self._open.add(table.lower())


def _quoted(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'


@contextmanager
def opened(path: Path, file: str) -> Iterator[Database]:
    """Open a GeoPackage for reading.

    Parameters
    ----------
    path : Path
        The file.
    file : str
        What errors call it.

    Yields
    ------
    Database
        Nothing is ever written, beside the file neither; triggers, views, attached files
        and functions of the database are out of reach.

    Raises
    ------
    RefusedInput
        If it is damaged, or asks for what is not allowed.
    """
    uri = f"{path.resolve().as_uri()}?mode=ro&immutable=1"
    try:
        with closing(sqlite3.connect(uri, uri=True)) as link:
            link.text_factory = _text
            link.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)
            link.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, MOST_BYTES)
            link.setlimit(sqlite3.SQLITE_LIMIT_EXPR_DEPTH, 50)
            link.execute("PRAGMA trusted_schema = OFF")
            link.execute("PRAGMA query_only = ON")
            link.execute("PRAGMA cell_size_check = ON")
            yield Database(file, link)
    except (sqlite3.Error, OverflowError, UnicodeError) as error:
        refuse(file, str(error), _WHOLE)


def _text(raw: bytes) -> str:
    return raw.decode("utf-8", "replace")
