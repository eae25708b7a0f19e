"""The environment that ./run works in: the folder .venv, made from the locks."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import stamp
from guard import only_one
from packages import clean_environment, install, install_folder, python_of
from said import SetupFailed, say
from system import venv_hint, venv_parts_installed

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
LOCKS = ROOT / "locks"
GUARD = ".made-by-run"
STAMP = "stamp.json"
LOCKS_OF = {
    "demo": (LOCKS / "demo.txt", LOCKS / "build.txt"),
    "test": (LOCKS / "test.txt",),
}


def ensure(part: str) -> None:
    """Make sure the environment holds the part named, and make it if not."""
    if _finished(part):
        return
    _claim(VENV)
    with only_one(VENV / GUARD):
        if _finished(part):
            return
        if _finished("demo"):
            say("Adding the test tools to the environment. This takes about a minute.")
            (VENV / STAMP).unlink()
        else:
            say("Making the environment in .venv. This takes about a minute the first time.")
            make_bare(VENV)
        install(VENV, LOCKS / "uv.txt", LOCKS_OF[part])
        install_folder(VENV, ROOT)
        stamp.write(VENV / STAMP, _wanted(), part)
        say("The environment is ready.")


def make_bare(venv: Path) -> None:
    """Make an environment with nothing in it but pip, in place of what is there."""
    for old in venv.iterdir() if venv.exists() else ():
        if old.name == GUARD:
            continue
        if old.is_dir() and not old.is_symlink():
            shutil.rmtree(old)
        else:
            old.unlink()
    # From inside an environment, build on the Python below it: this one may be going away.
    base = getattr(sys, "_base_executable", None) or sys.executable
    if not venv_parts_installed(base):
        raise SetupFailed(venv_hint())
    made = subprocess.run([base, "-m", "venv", str(venv)], env=clean_environment(), check=False)
    if made.returncode != 0:
        raise SetupFailed(f"Python could not make an environment. {venv_hint()}")


def _claim(venv: Path) -> None:
    if (venv / "pyvenv.cfg").exists() and not (venv / GUARD).exists():
        raise SetupFailed(
            f"{venv} is an environment that ./run did not make. Move it away, then run again."
        )
    venv.mkdir(exist_ok=True)


def _finished(part: str) -> bool:
    return stamp.holds(VENV / STAMP, _wanted(), part)


def _wanted() -> dict[str, str]:
    return stamp.expected(ROOT, python_of(VENV), sorted(LOCKS.glob("*.txt")))
