"""On which line of a TOML text each key and value stands.

The standard library's reader gives no positions. This one gives nothing else: it
follows text that is already known to be TOML and notes the line of every key, table
and array item, so that an error can name the line.
"""

from __future__ import annotations

import re
import tomllib

Path = tuple[str | int, ...]
"""Keys and places in arrays (from 0) that lead to a value, outermost first."""

BETWEEN = re.compile(r"(?:[\s,]|#[^\n]*)*")
SPACE = re.compile(r"[ \t]*")
KEY = re.compile(r"""(?:"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[A-Za-z0-9_-]+|[ \t]*\.[ \t]*)+""")
BARE_KEY = re.compile(r"[A-Za-z0-9_-]+\Z")
STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}|'
    r"'''(?:[^']|'(?!''))*'{3,5}|"
    r'"(?:[^"\\\n]|\\.)*"|'
    r"'[^'\n]*'",
    re.DOTALL,
)
SCALAR = re.compile(r"[^,\]}#\n]+")


def lines_of(text: str) -> dict[Path, int]:
    """Say on which line each key, table and array item of a TOML text begins.

    Parameters
    ----------
    text : str
        Text that `tomllib` reads without error. [TOML]

    Returns
    -------
    dict of Path to int
        For each path its line, the first line of the text being 1. [line number]
    """
    return _Follower(text).follow()


def nearest_line(lines: dict[Path, int], path: Path) -> int:
    """Give the line of a value, or of the closest table around it that is written down.

    Parameters
    ----------
    lines : dict of Path to int
        What `lines_of` gave. [line number]
    path : Path
        Where the value is, or should have been. [keys and places]

    Returns
    -------
    int
        A line of the text; 1 where nothing around the value is written down.
    """
    for end in range(len(path), 0, -1):
        if path[:end] in lines:
            return lines[path[:end]]
    return 1


class _Follower:
    """Where the eye is in the text: the place, its line, and what was noted so far."""

    def __init__(self, text: str) -> None:
        self.text = text.replace("\r\n", "\n")
        self.at = 0
        self.line = 1
        self.lines: dict[Path, int] = {}
        self.tables: dict[Path, int] = {}

    def follow(self) -> dict[Path, int]:
        here: Path = ()
        while self._skip(BETWEEN) < len(self.text):
            if self.text[self.at] == "[":
                here = self._header()
            else:
                self._pair(here)
        return self.lines

    def _skip(self, what: re.Pattern[str]) -> int:
        """Move past what the pattern matches here, counting lines."""
        found = what.match(self.text, self.at)
        end = found.end() if found else self.at + 1
        self.line += self.text.count("\n", self.at, end)
        self.at = end
        return end

    def _key(self) -> tuple[str, ...]:
        start = self.at
        self._skip(KEY)
        return _parts(self.text[start : self.at].strip())

    def _header(self) -> Path:
        """Follow `[table]` or `[[array]]` and give the path that it opens."""
        many = self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        self._skip(SPACE)
        line, keys = self.line, self._key()
        self._skip(SPACE)
        self.at += 2 if many else 1
        path: Path = ()
        for key in keys:
            if path in self.tables:  # a key of an array of tables means its last table
                path = (*path, self.tables[path])
            path = (*path, key)
            self.lines.setdefault(path, line)
        if not many:
            return path
        self.tables[path] = self.tables.get(path, -1) + 1
        path = (*path, self.tables[path])
        self.lines[path] = line
        return path

    def _pair(self, table: Path) -> None:
        line, path = self.line, table
        for key in self._key():
            path = (*path, key)
            self.lines.setdefault(path, line)
        self._skip(SPACE)
        self.at += 1  # the equals sign
        self._skip(SPACE)
        self._value(path)

    def _value(self, path: Path) -> None:
        opening = self.text[self.at : self.at + 1]
        if opening == "[":
            self._items(path)
        elif opening == "{":
            self._pairs(path)
        else:
            self._skip(STRING if opening in ("'", '"') else SCALAR)

    def _items(self, path: Path) -> None:
        self.at += 1
        place = 0
        while self._skip(BETWEEN) < len(self.text) and self.text[self.at] != "]":
            self.lines[(*path, place)] = self.line
            self._value((*path, place))
            place += 1
        self.at += 1

    def _pairs(self, path: Path) -> None:
        self.at += 1
        while self._skip(BETWEEN) < len(self.text) and self.text[self.at] != "}":
            self._pair(path)
        self.at += 1


def _parts(written: str) -> tuple[str, ...]:
    """Take a dotted key apart; the standard reader is asked where quotes are in it."""
    if BARE_KEY.match(written):
        return (written,)
    parts: tuple[str, ...] = ()
    inner = tomllib.loads(f"{written} = 0")
    while isinstance(inner, dict):
        (part,) = inner
        parts = (*parts, part)
        inner = inner[part]
    return parts
