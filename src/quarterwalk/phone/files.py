"""Which files the phone page is made of, under which paths, and as what."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PurePosixPath

HERE = Path(__file__).resolve().parent

_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}


def phone_files() -> Mapping[str, Path]:
    """Give every file of the phone page by its path below the page's address.

    The page itself, ``index.html``, is to be served at the address alone as well.

    Returns
    -------
    mapping of str to Path
        In the order of their paths.
    """
    found = {
        path.relative_to(HERE).as_posix(): path
        for path in HERE.rglob("*")
        if path.suffix in _TYPES and path.is_file()
    }
    return dict(sorted(found.items()))


def content_type(name: str) -> str:
    """Say as what a file of the phone page is served.

    Parameters
    ----------
    name : str
        A path that `phone_files` gives.

    Returns
    -------
    str
        For the header of that name.

    Raises
    ------
    KeyError
        If the page has no files of that kind.
    """
    return _TYPES[PurePosixPath(name).suffix]
