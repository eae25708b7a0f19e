"""Asking for help brings in none of the heavy libraries.

What is imported is counted instead of seconds: seconds depend on the machine.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = ("numpy", "scipy", "jsonschema", "python_calamine", "xlsxwriter")
ASK = """
import sys
from quarterwalk.cli import main
try:
    main({words!r})
except SystemExit as ended:
    assert not ended.code, ended.code
print("heavy:", *[name for name in {heavy!r} if name in sys.modules])
"""


@pytest.mark.parametrize("words", [["--help"], ["call", "--help"], ["--version"]])
def test_help_imports_no_heavy_library(words: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, "-c", ASK.format(words=words, heavy=HEAVY)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[-1].strip() == "heavy:"
