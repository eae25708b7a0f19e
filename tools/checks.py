"""The checks that run before the tests: each a command, all of them run, the failed ones named."""

from __future__ import annotations

import subprocess
import time
from dataclasses import dataclass
from pathlib import Path

from packages import programs, python_of
from said import say


@dataclass(frozen=True, slots=True)
class Check:
    """A question put to the whole source, and the command that answers it."""

    question: str
    words: tuple[str, ...]


CHECKS = (
    Check("lint", ("ruff", "check", "--quiet")),
    Check("format", ("ruff", "format", "--check", "--quiet")),
    Check("types", ("mypy",)),
    Check("import directions", ("lint-imports", "--no-logo")),
)


def failed_checks(root: Path, venv: Path) -> list[str]:
    """Run every check in the repository's folder, and name those that failed."""
    return [check.question for check in CHECKS if not _passes(check, root, venv)]


def _passes(check: Check, root: Path, venv: Path) -> bool:
    started = time.monotonic()
    command = [str(programs(venv) / check.words[0]), *check.words[1:]]
    if check.words[0] == "mypy":
        command += ["--python-executable", str(python_of(venv))]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)
    passed = done.returncode == 0
    seconds = time.monotonic() - started
    say(f"  {check.question}: {'passed' if passed else 'FAILED'} ({seconds:.1f} s)")
    if not passed:
        say((done.stdout + done.stderr).rstrip())
    return passed
