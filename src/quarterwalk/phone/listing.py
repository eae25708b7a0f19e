"""The list by which the service worker keeps the page: each file with its hash, and a version."""

from __future__ import annotations

import json
from hashlib import sha256

from quarterwalk.phone.files import HERE, phone_files

LISTING = "files.js"
"""Name of the list among the files."""

_NOT_KEPT = {LISTING, "sw.js"}  # the list is the worker's own, and the browser keeps the worker
_LETTERS = 12  # of a hash: enough that no two versions share them


def listing() -> str:
    """Write the list of the files as they are now.

    Returns
    -------
    str
        A script that tells the service worker what to keep. The version changes with any
        byte of any file, the worker's own too.

    Notes
    -----
    After a change to a file of the page: ``python -m quarterwalk.phone.listing``.
    """
    hashes = {name: sha256(path.read_bytes()).hexdigest() for name, path in phone_files().items()}
    told = {name: hash for name, hash in hashes.items() if name not in _NOT_KEPT and _kept(name)}
    all_of_it = json.dumps({name: hash for name, hash in hashes.items() if name != LISTING})
    version = sha256(all_of_it.encode()).hexdigest()[:_LETTERS]
    lines = json.dumps({"version": version, "files": told}, indent=2)
    return f"self.QUARTERWALK_FILES = {lines};\n"


def _kept(name: str) -> bool:
    """Say whether the page works by it; licences are served, but a phone need not keep them."""
    return not name.endswith(".txt")


if __name__ == "__main__":
    (HERE / LISTING).write_text(listing(), encoding="utf-8", newline="\n")
