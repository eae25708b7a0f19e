"""Files that a command writes into a folder the user named, never over one that it reads."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from quarterwalk.errors import UsageError, shown
from quarterwalk.files.whole_file import whole_file


@contextmanager
def folder_for(out: str) -> Iterator[Path]:
    """Make the folder to write into, and explain what keeps anything from being written.

    Parameters
    ----------
    out : str
        What followed ``--out``.

    Yields
    ------
    Path
        The folder, which is there.

    Raises
    ------
    UsageError
        If it can't be made or written to.
    """
    if not out.strip():
        raise UsageError(f'--out must name a folder, got "{out}".')
    folder = Path(out)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        yield folder
    except OSError as error:
        why = error.strerror or str(error)
        raise UsageError(
            f"--out must be a folder that can be written to, got {folder}: {why}."
        ) from None


def refuse_taken(folder: Path, names: Iterable[str], read: Iterable[str | None] = ()) -> None:
    """Refuse to begin where a file can't be written, or one that was read would be lost.

    Parameters
    ----------
    folder : Path
        Where the files are to stand. [folder name]
    names : iterable of str
        Of all files that are to be written there.
    read : iterable of str or None
        Files that the command reads; None and ``-`` are none. [file names]

    Raises
    ------
    UsageError
        If one of the names is a folder's, or that of a file that is read.
    """
    kept = [path for path in read if path]
    for name in names:
        path = folder / name
        if path.is_dir():
            raise UsageError(
                "--out must be a folder where the files can be written,"
                f" but {shown(str(path), most=200)} is a folder. Nothing was written."
            )
        refuse_written_over(str(path), kept)


def refuse_written_over(out: str, read: Iterable[str]) -> None:
    """Refuse to write a file over one that the command reads.

    Parameters
    ----------
    out : str
        What is to be written. [file name]
    read : iterable of str
        Files that are read; ``-`` is standard input. [file names]

    Raises
    ------
    UsageError
        If it is one of them, by whatever name.
    """
    for path in read:
        if _is_standard_input(out) if path == "-" else _is_same(out, path):
            raise UsageError(
                f"--out must leave the files alone that are read, got {shown(out, most=200)}."
                " Give another name."
            )


def _is_standard_input(out: str) -> bool:
    try:
        return os.path.samestat(Path(out).stat(), os.fstat(sys.stdin.fileno()))
    except (OSError, ValueError, AttributeError):  # a test's own stream, or one that is closed
        return False


def _is_same(one: str, other: str) -> bool:
    try:
        return Path(one).samefile(other)
    except (OSError, ValueError):  # ValueError: a name with a null character
        return False


def write(path: Path, content: str | bytes) -> None:
    """Write a file, whole or not at all.

    Parameters
    ----------
    path : Path
        Where. [file name]
    content : str or bytes
        Text is written as UTF-8.
    """
    with whole_file(path) as file:
        file.write(content.encode("utf-8") if isinstance(content, str) else content)
