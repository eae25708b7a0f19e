"""`./run` passes over a Python that does not run, or is too old, and says what to install."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.contracts.source import ROOT

pytestmark = pytest.mark.skipif(os.name == "nt", reason="needs a POSIX shell")

BROKEN = '#!/bin/sh\necho "version not installed" >&2\nexit 127\n'
OLD = "#!/bin/sh\nexit 1\n"
GOOD = f'#!/bin/sh\nexec "{sys.executable}" "$@"\n'


def run_with(folder: Path, pythons: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Call ``./run --help`` where only these Pythons, and what the shell needs, can be found."""
    for name, text in pythons.items():
        (folder / name).write_text(text)
        (folder / name).chmod(0o755)
    for command in ("sh", "dirname"):
        found = shutil.which(command)
        assert found
        (folder / command).symlink_to(found)
    return subprocess.run(
        [ROOT / "run", "--help"],
        env={"PATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_stand_in_that_does_not_run_is_passed_over(tmp_path: Path) -> None:
    done = run_with(tmp_path, {"python3": BROKEN, "python3.14": OLD, "python3.12": GOOD})
    assert done.returncode == 0, done.stderr
    assert "./run demo" in done.stdout


def test_without_python_the_packages_to_install_are_named(tmp_path: Path) -> None:
    done = run_with(tmp_path, {"python3": OLD})
    assert done.returncode == 1
    assert "apt-get install python3 python3-venv" in done.stderr
    assert "Other systems" in done.stderr
