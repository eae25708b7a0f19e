"""Files that a command writes into a folder the user named."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from quarterwalk.errors import UsageError
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
