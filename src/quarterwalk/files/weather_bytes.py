"""The bytes of a weather file, up to a limit, and its first line."""

from __future__ import annotations

from pathlib import Path
from typing import IO

from quarterwalk.files.bounded_file import Bound, bytes_from, bytes_of
from quarterwalk.files.refusal import refuse

MOST_BYTES = 64 << 20
"""Largest weather file: 200,000 days have under 10 MB, the archive's file of one station with
all elements under 40. A rule of this project. [bytes]"""

MOST_LINES = 5_000_000
"""Lines of a file, blank ones among them: as many as days. A rule of this project. [count]"""

# Enough to tell a station file by: its first values stand before column 50. [bytes]
_START = 400
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_GZIP = b"\x1f\x8b"


_WEATHER = Bound(
    "a file of weather", MOST_BYTES, "Cut the file to the stations and years that you need."
)


def bytes_of_file(path: str | Path, file: str) -> bytes:
    """Read a file that is there, not too large and not packed.

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
        If it can't be read, has more than `MOST_BYTES` or `MOST_LINES`, or is packed.
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
        If it has more than `MOST_BYTES` or `MOST_LINES`, or is packed.
    """
    return _taken(bytes_from(source, file, _WEATHER), file)


def _taken(data: bytes, file: str) -> bytes:
    if data.startswith(_GZIP):
        refuse(file, "a packed file", "a file that is not packed", "Unpack it first.")
    if max(data.count(b"\n"), data.count(b"\r")) > MOST_LINES:
        refuse(file, "more", f"a file of at most {MOST_LINES:,} lines")
    return data


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
