"""The bytes of a file, up to a limit."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import IO

from quarterwalk.files.boundary_limits import MOST_BYTES, megabytes
from quarterwalk.files.refusal import refuse


@dataclass(frozen=True, slots=True)
class Bound:
    """What a file is, how large it may be, and what to do where it is larger.

    Parameters
    ----------
    kind : str
        Such as ``a file of boundaries``.
    most : int
        [bytes]
    hint : str
        What makes it smaller; may be empty.
    """

    kind: str
    most: int
    hint: str = ""


BOUNDARIES = Bound("a file of boundaries", MOST_BYTES)


def bytes_of(path: Path, file: str, bound: Bound = BOUNDARIES) -> bytes:
    """Read a file that is there and not too large.

    Parameters
    ----------
    path : Path
        The file.
    file : str
        What errors call it.
    bound : Bound
        What it is, and how large it may be.

    Returns
    -------
    bytes

    Raises
    ------
    RefusedInput
        If it can't be read, or is too large.
    """
    try:
        with path.open("rb") as source:
            return bytes_from(source, file, bound)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character
        why = getattr(error, "strerror", None) or str(error)
        refuse(file, why, f"{bound.kind} that can be read")


def bytes_from(source: IO[bytes], file: str, bound: Bound = BOUNDARIES) -> bytes:
    """Read an open file to its end, or to the limit.

    Parameters
    ----------
    source : binary file
        Open for reading.
    file : str
        What errors call it.
    bound : Bound
        What it is, and how large it may be.

    Returns
    -------
    bytes

    Raises
    ------
    RefusedInput
        If it is too large.
    """
    data = source.read(bound.most + 1)
    if len(data) > bound.most:
        refuse(file, "a larger one", f"a file of at most {megabytes(bound.most)}", bound.hint)
    return data
