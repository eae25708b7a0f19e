"""What is packed in a workbook: how large it unpacks, and cells without a value."""

from __future__ import annotations

import html
import io
import posixpath
import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import IO

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.files.refusal import DAMAGED
from quarterwalk.files.zip_members import DAMAGED_ZIP

# Limits against files made to fill the memory; a million plants need a tenth of them
# (this project's rule).
MOST_BYTES = 1 << 30
"""Most that the parts of a workbook may unpack to. [bytes]"""

LAST_COLUMN = "AZ"
"""Last column of a sheet that is read."""

MOST_UNREAD = 10_000
"""Cells with an error or a formula without its value that are kept of one sheet. [count]"""

Place = tuple[int, int]
"""Row and column of a cell. [from 0]"""

_PIECE = 1 << 20
_LONGEST_CELL = 1 << 21
_SHEET = re.compile(rb"<(?:\w+:)?sheet\s([^<>]*)>")
_RELATION = re.compile(rb"<(?:\w+:)?Relationship\s([^<>]*)>")
_ATTRIBUTE = re.compile(rb"([\w:]+)\s*=\s*(?:\"([^\"]*)\"|'([^']*)')")
_VALUE = re.compile(rb"<(?:v|t|f)(?:\s[^<>]*)?>[^<]")
_FAR_CELL = re.compile(rb' r="((?:[B-Z][A-Z]|[A-Z]{3,})[0-9]+)"')
_ADDRESS = re.compile(rb'r="([A-Z]{1,2})([0-9]{1,7})"')


@dataclass(slots=True)
class SheetFacts:
    """What a reader of values would not see in a sheet.

    Parameters
    ----------
    far : str
        A cell beyond `LAST_COLUMN`; empty where there is none.
    unread : dict of (int, int) to str
        Cells that hold an error or a formula without its value, by row and column,
        and what stands in them. [from 0]
    filled : bool
        Whether any cell holds something.
    """

    far: str = ""
    unread: dict[Place, str] = field(default_factory=dict)
    filled: bool = False


def no_workbook(file: str, what: str, hint: str = "") -> RefusedInput:
    """Refuse a file that is no workbook, or a damaged one."""
    return RefusedInput([Problem(file, None, None, what, "an XLSX workbook that is whole", hint)])


def sheet_facts(file: str, data: bytes) -> list[SheetFacts]:
    """Unpack a workbook once, in pieces, and find what a reader of values would not see.

    An error such as #N/A, and a formula that was never worked out, would read as blank
    cells; but nobody said that the plant was not looked at.

    Parameters
    ----------
    file : str
        The name that errors use.
    data : bytes
        The whole file.

    Returns
    -------
    list of SheetFacts
        In the order of the workbook's sheets; empty where that order can't be told.

    Raises
    ------
    RefusedInput
        If it is no workbook, is damaged, or unpacks to more than `MOST_BYTES`.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            names = book.namelist()
            if "content.xml" in names:
                raise no_workbook(file, "another kind of workbook", "Save the table as XLSX.")
            if not any(name.startswith("xl/") for name in names):
                raise no_workbook(file, "a zip without a workbook in it", "Unpack it first.")
            left, found = MOST_BYTES, {}
            for part in book.infolist():
                facts = found[part.filename] = SheetFacts()
                with book.open(part) as stream:
                    for chunk in _chunks(stream):
                        left -= len(chunk)
                        if left < 0:
                            expected = f"a workbook that unpacks to at most {MOST_BYTES >> 20} MB"
                            raise RefusedInput([Problem(file, None, None, part.filename, expected)])
                        _look(chunk, facts)
            return [found.get(name, SheetFacts()) for name in _sheet_parts(book)]
    except DAMAGED_ZIP:
        raise no_workbook(file, DAMAGED) from None


def _chunks(stream: IO[bytes]) -> Iterator[bytes]:
    """Unpack a part in pieces that do not cut through a cell."""
    tail = b""
    while piece := stream.read(_PIECE):
        text = tail + piece
        cut = max(text.rfind(b"<c "), len(text) - _LONGEST_CELL, 0)
        yield text[:cut]
        tail = text[cut:]
    yield tail


def _look(chunk: bytes, facts: SheetFacts) -> None:
    if not facts.far and (far := _FAR_CELL.search(chunk)):
        facts.far = far.group(1).decode()
    facts.filled = facts.filled or _VALUE.search(chunk) is not None
    if b't="e"' not in chunk and b"<f" not in chunk:
        return
    for cell in chunk.split(b"<c ")[1:]:
        head = cell[: cell.find(b">")]
        address = _ADDRESS.search(head)
        if address and (text := _unread(head, cell)) and len(facts.unread) < MOST_UNREAD:
            column, row = address.groups()
            facts.unread[int(row) - 1, _column_number(column) - 1] = text


def _unread(head: bytes, cell: bytes) -> str:
    """Give the error or the formula of a cell that has no value; empty where it has one."""
    value = _between(cell, b"<v", b"<")
    if b't="e"' in head:
        return value or "#N/A"
    if b"<f" not in cell or value or b't="str"' in head:
        return ""
    return "=" + _between(cell, b"<f", b"</f>")


def _between(cell: bytes, tag: bytes, end: bytes) -> str:
    """Give the text after an opening tag."""
    start = cell.find(tag)
    opened = cell.find(b">", start)
    if start < 0 or opened < 0 or cell[opened - 1 : opened] == b"/":
        return ""
    closed = cell.find(end, opened)
    return html.unescape(cell[opened + 1 : closed].decode("utf-8", "replace"))


def _column_number(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - ord("A") + 1
    return number


def _sheet_parts(book: zipfile.ZipFile) -> list[str]:
    """Name the part of each sheet, in the order of the workbook."""
    home, relations = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
    if not {home, relations} <= set(book.namelist()):
        return []
    targets = {
        found.get("Id", ""): posixpath.normpath(posixpath.join("/xl", found.get("Target", "")))
        for found in map(_attributes, _RELATION.findall(book.read(relations)))
    }
    sheets = map(_attributes, _SHEET.findall(book.read(home)))
    ids = [next((v for k, v in s.items() if k.endswith(":id")), "") for s in sheets]
    return [targets.get(id_, "").lstrip("/") for id_ in ids]


def _attributes(text: bytes) -> dict[str, str]:
    return {
        name.decode("utf-8", "replace"): html.unescape(
            (double or single).decode("utf-8", "replace")
        )
        for name, double, single in _ATTRIBUTE.findall(text)
    }
