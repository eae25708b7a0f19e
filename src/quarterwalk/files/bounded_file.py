"""The bytes of a file, up to a limit."""

from __future__ import annotations

from pathlib import Path
from typing import IO

from quarterwalk.files.boundary_limits import MOST_BYTES, megabytes
from quarterwalk.files.refusal import refuse


def bytes_of(path: Path, file: str) -> bytes:
    """Read a file that is there and not too large.

    Parameters
    ----------
    path : Path
        The file.
    file : str
        What errors call it.

    Returns
    -------
    bytes

    Raises
    ------
    RefusedInput
        If it can't be read, or has more than `MOST_BYTES`.
    """
    try:
        with path.open("rb") as source:
            return bytes_from(source, file)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character
        why = getattr(error, "strerror", None) or str(error)
        refuse(file, why, "a file of boundaries that can be read")


def bytes_from(source: IO[bytes], file: str) -> bytes:
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
        If it has more than `MOST_BYTES`.
    """
    data = source.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        refuse(file, "a larger one", f"a file of at most {megabytes(MOST_BYTES)}")
    return data
