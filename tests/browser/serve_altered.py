"""Serves an office whose phone page is altered: ``serve_altered.py FOLDER --data … --port …``.

The folder holds the page's files; whatever was changed in them, their list is made afresh,
so that the page's worker takes them for a version of its own.
"""

from __future__ import annotations

import sys
from pathlib import Path

from quarterwalk.cli import main
from quarterwalk.phone import files, listing

folder = Path(sys.argv.pop(1))
files.HERE = folder
(folder / listing.LISTING).write_text(listing.listing(), encoding="utf-8", newline="\n")
sys.exit(main(["serve", *sys.argv[1:]]))
