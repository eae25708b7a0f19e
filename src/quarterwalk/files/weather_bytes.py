"""The bytes of a weather file, up to a limit, and its first line."""

from __future__ import annotations

import gzip
import io
import zlib
from pathlib import Path
from typing import IO

from quarterwalk.files.bounded_file import Bound, bytes_from, bytes_of
from quarterwalk.files.refusal import DAMAGED, refuse

MOST_BYTES = 64 << 20
"""Largest weather file: 200,000 days have under 10 MB, the archive's file of one station with
all elements under 40. A rule of this project. [bytes]"""

MOST_LINES = 5_000_000
"""Lines of a file, blank ones among them: as many as days. A rule of this project. [count]"""

# Enough to tell a station file by: its first values stand before column 50. [bytes]
_START = 400
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_DOS_END = b"\x1a"
_GZIP = b"\x1f\x8b"
_PACKED_OTHERWISE = {b"BZh": "one packed with bzip2", b"\xfd7zXZ\x00": "one packed with xz"}


_CUT = "Cut the file to the stations and years that you need."
_WEATHER = Bound("a file of weather", MOST_BYTES, _CUT)
_UNPACKED = Bound("a packed file", MOST_BYTES, f"It is larger unpacked. {_CUT}")


def bytes_of_file(path: str | Path, file: str) -> bytes:
    """Read a file that is there and not too large, unpacked if it was packed.

    Parameters
    ----------
    path : str or Path
        The file.
    file : str
        What errors call it.

    Returns
    -------
    bytes

    Raises
    ------
    RefusedInput
        If it can't be read, has more than `MOST_BYTES` or `MOST_LINES`, or is packed and
        damaged.
    """
    return _taken(bytes_of(Path(path), file, _WEATHER), file)


def bytes_of_source(source: IO[bytes], file: str) -> bytes:
    """Read an open file to its end, or to the limit.

    Parameters
    ----------
    source : binary file
        Open for reading.
    file : str
        What errors call it.

    Returns
    -------
    bytes

    Raises
    ------
    RefusedInput
        If it has more than `MOST_BYTES` or `MOST_LINES`, or is packed and damaged.
    """
    return _taken(bytes_from(source, file, _WEATHER), file)


def is_packed_file(path: str | Path) -> bool:
    """Tell a file that is packed with gzip, as the archive sends its files."""
    with Path(path).open("rb") as source:
        return source.read(len(_GZIP)) == _GZIP


def _taken(data: bytes, file: str) -> bytes:
    if data.startswith(_GZIP):
        data = _unpacked(data, file)
    for start, what in _PACKED_OTHERWISE.items():
        if data.startswith(start):
            refuse(file, what, "a file packed with gzip, or not at all", "Unpack it first.")
    if _is_utf16(data):
        refuse(file, "UTF-16", "text in UTF-8", "Save the table as CSV UTF-8.")
    if max(data.count(b"\n"), data.count(b"\r")) > MOST_LINES:
        refuse(file, "more", f"a file of at most {MOST_LINES:,} lines")
    return data


def _is_utf16(data: bytes) -> bool:
    """Tell text in two bytes a character without the mark: every other byte is 0."""
    start = data[:_START]
    even, odd = any(start[::2]), any(start[1::2])
    return len(start) > 1 and even != odd


def _unpacked(data: bytes, file: str) -> bytes:
    """Unpack as much as a file may have, whatever it says of itself."""
    try:
        with gzip.GzipFile(fileobj=io.BytesIO(data)) as packed:
            out = bytes_from(io.BytesIO(packed.read(MOST_BYTES + 1)), file, _UNPACKED)
    except (OSError, EOFError, zlib.error):
        refuse(file, DAMAGED, "a packed file that is whole", "The file may be cut off.")
    if out.startswith(_GZIP):
        refuse(file, "one packed twice", "a file that is packed once", "Unpack it once.")
    return out


def lines_of(data: bytes) -> list[str]:
    """Give the lines of a file in fixed columns, a character for each byte.

    Parameters
    ----------
    data : bytes
        A file; a mark of UTF-8 at its beginning and the mark by which DOS ended a file
        are no part of it.

    Returns
    -------
    list of str
        Whatever ends a line, it is not in it.
    """
    bare = data.removeprefix(_BYTE_ORDER_MARK).removesuffix(_DOS_END)
    return bare.replace(b"\r\n", b"\n").replace(b"\r", b"\n").decode("latin-1").split("\n")


def first_line(data: bytes) -> str:
    """Give the beginning of the first line that is not blank, a character for each byte.

    Parameters
    ----------
    data : bytes
        A file.

    Returns
    -------
    str
    """
    text = data.removeprefix(_BYTE_ORDER_MARK).lstrip(b"\r\n")[:_START]
    return text.splitlines()[0].decode("latin-1") if text else ""
