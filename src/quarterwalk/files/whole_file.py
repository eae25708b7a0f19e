"""A file that stands in its place whole, or not at all."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO


@contextmanager
def whole_file(path: Path) -> Iterator[BinaryIO]:
    """Give a file beside `path` to write into; it takes that name once it is whole.

    Parameters
    ----------
    path : Path
        Where the file is to stand; what stood there stays until then. [file name]

    Yields
    ------
    binary file
        Open for writing.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with beside.open("wb") as file:
            yield file
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
