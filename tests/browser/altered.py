"""The phone page with one thing broken on purpose, to see that a test would notice."""

from __future__ import annotations

import shutil
from pathlib import Path

from quarterwalk.phone.files import HERE as PAGE
from tests.browser.server import HERE, Server

AWAITS_THE_DISK = "const [record] = await Promise.all([written, tx.done]);"
PAINTS_EARLY = "tx.done.catch(() => {}); const record = await written;"


def altered(server: Server, folder: Path, file: str, was: str, becomes: str) -> Server:
    """Give the same office with another phone page; `was` must stand in the file once."""
    shutil.copytree(PAGE, folder, ignore=shutil.ignore_patterns("__pycache__", "*.py"))
    text = (folder / file).read_text(encoding="utf-8")
    assert text.count(was) == 1, f"{file} does not say: {was}"
    (folder / file).write_text(text.replace(was, becomes), encoding="utf-8", newline="\n")
    words = (str(HERE / "serve_altered.py"), str(folder))
    return Server(server.data, server.told, words)


def that_paints_early(server: Server, folder: Path) -> Server:
    """Give an office whose page shows a plant as saved before its transaction is complete."""
    return altered(server, folder, "store.js", AWAITS_THE_DISK, PAINTS_EARLY)
