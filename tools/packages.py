"""Install what a lock names, and nothing else: by uv, or by pip where uv fails."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path

from certificates import pip_certificates
from indexes import pip_settings, uv_environment
from retry import PAUSES_S, succeeds
from said import SetupFailed, say

DROPPED = ("PYTHONPATH", "PYTHONHOME", "PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_CONSTRAINT")
"""Settings that would lead the packages, or the search for them, out of the environment."""


MOST_LINES = 6
LONGEST_LINE = 200
"""How much of an installer's complaint is shown."""

PIP_RETRIES = "2"
"""pip's own tries within each of ours, unless the user says otherwise."""


def programs(venv: Path) -> Path:
    """Give the folder where the environment keeps its commands."""
    return venv / ("Scripts" if os.name == "nt" else "bin")


def python_of(venv: Path) -> Path:
    """Give the environment's own interpreter."""
    return programs(venv) / ("python.exe" if os.name == "nt" else "python")


def clean_environment() -> dict[str, str]:
    """Copy the user's environment without what would lead packages astray."""
    kept = {name: value for name, value in os.environ.items() if name not in DROPPED}
    return {**kept, "PIP_USER": "0", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}


def install(venv: Path, uv_lock: Path, locks: Sequence[Path]) -> None:
    """Bring every package of the locks, each proved by its hash.

    Raises
    ------
    SetupFailed
        When neither uv nor pip could fetch them.
    """
    wanted = [word for lock in locks for word in ("-r", str(lock))]
    if _has_uv(venv, uv_lock) and succeeds("The download", lambda: _by_uv(venv, wanted)):
        return
    say("uv could not do it. pip does it instead, more slowly.")
    if not succeeds("The download", lambda: _by_pip(venv, [*wanted, "--require-hashes"])):
        raise SetupFailed(
            "The packages could not be fetched. What did come is kept: "
            "check the connection, then run the same command again."
        )


def install_folder(venv: Path, project: Path) -> None:
    """Put the project itself in, so that a change to its files counts at once."""
    words = ["--no-deps", "--no-build-isolation", "--editable", str(project)]
    if not (_has_uv_program(venv) and _by_uv(venv, words)) and not _by_pip(venv, words):
        raise SetupFailed("quarterwalk itself could not be installed; the lines above say why.")


def _has_uv(venv: Path, uv_lock: Path) -> bool:
    words = ["--require-hashes", "-r", str(uv_lock)]
    fetched = succeeds("uv", lambda: _by_pip(venv, words), pauses=PAUSES_S[:2])
    return fetched and _has_uv_program(venv)


def _has_uv_program(venv: Path) -> bool:
    try:
        found = subprocess.run(
            [programs(venv) / "uv", "--version"], capture_output=True, check=False
        )
    except OSError:
        return False
    return found.returncode == 0


def _by_uv(venv: Path, words: Sequence[str]) -> bool:
    environment = clean_environment()
    environment |= uv_environment(_pip_settings_of_user(venv), environment)
    environment["UV_PYTHON_DOWNLOADS"] = "never"
    command = [str(programs(venv) / "uv"), "pip", "install", "--quiet"]
    if "--editable" not in words:
        command.append("--require-hashes")
    return _run([*command, "--python", str(python_of(venv)), *words], environment)


def _by_pip(venv: Path, words: Sequence[str]) -> bool:
    command = [str(python_of(venv)), "-m", "pip", "install", "--quiet", *words]
    environment = clean_environment()
    pip = _pip_settings_of_user(venv)
    environment |= pip_certificates(pip, environment)
    if "retries" not in pip:
        environment["PIP_RETRIES"] = PIP_RETRIES
    return _run(command, environment)


def _pip_settings_of_user(venv: Path) -> dict[str, str]:
    command = [str(python_of(venv)), "-m", "pip", "config", "list"]
    listed = subprocess.run(
        command, env=clean_environment(), capture_output=True, text=True, check=False
    )
    return pip_settings(listed.stdout)


def _run(command: Sequence[str], environment: Mapping[str, str]) -> bool:
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        for line in worth_showing(done.stderr or done.stdout):
            say(f"  {line}")
    return done.returncode == 0


def worth_showing(printed: str) -> list[str]:
    """Pick the lines of an installer's complaint that help: not the hashes, not warnings."""
    lines = [line.strip()[:LONGEST_LINE] for line in printed.splitlines() if line.strip()]
    telling = [line for line in lines if not line.startswith(("Expected", "WARNING", "[notice]"))]
    return (telling or lines)[:MOST_LINES]
