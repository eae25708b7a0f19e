"""Parts that come from the system's own packages: found, fetched as root, or named."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from retry import succeeds
from said import say

APT_INSTALL = (
    "apt-get",
    "install",
    "--yes",
    "-qq",
    "-o=Dpkg::Use-Pty=0",
    "--no-install-recommends",
)


@dataclass(frozen=True, slots=True)
class Part:
    """A command that some tests call, and the Debian package, or packages, that bring it."""

    command: str
    package: str
    serves: str


TEST_PARTS = (
    Part("git", "git", "the check of what the repository tracks"),
    Part("bash", "bash", "the check of .ci/run, and completion in bash"),
    Part("node", "nodejs", "the phone's modules, tried without a browser"),
    # libatomic1 is what the program that steers the browser needs on a bare machine
    Part("chromium", "chromium libatomic1", "the pages and the phone in a real browser"),
    Part("pg_createcluster", "postgresql", "the journal on PostgreSQL"),
)


def bring(parts: Sequence[Part], *, find: Callable[[str], str | None] = shutil.which) -> list[Part]:
    """Fetch the parts that are missing, where that is allowed, and give those still missing."""
    missing = [part for part in parts if find(part.command) is None]
    if missing and may_install():
        fetch([name for part in missing for name in part.package.split()])
        missing = [part for part in parts if find(part.command) is None]
    return missing


def left_out(missing: Sequence[Part]) -> list[str]:
    """Say what is missing, how to get it, and what goes untested without it."""
    if not missing:
        return []
    packages = " ".join(part.package for part in missing)
    lines = [f"Missing: {packages}. On Debian, as root: apt-get install {packages}"]
    return [*lines, *(f"  Left out without {part.command}: {part.serves}." for part in missing)]


def may_install() -> bool:
    """Say whether this user may install Debian packages here."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def fetch(packages: Sequence[str]) -> bool:
    """Install Debian packages, and say whether they came."""
    say(f"Installing {' '.join(packages)} with apt-get.")
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}

    def attempt() -> bool:
        commands = ("apt-get", "update", "-qq"), (*APT_INSTALL, *packages)
        return all(
            subprocess.run(command, env=environment, stdout=sys.stderr, check=False).returncode == 0
            for command in commands
        )

    return succeeds("apt-get", attempt)


def venv_parts_installed(python: str) -> bool:
    """Say whether this Python can make environments; as root on Debian, see to it."""
    return _makes_environments(python) or (
        may_install() and fetch([_venv_package()]) and _makes_environments(python)
    )


def venv_hint() -> str:
    """Say which package lets this Python make environments."""
    return (
        "This Python can't make environments: its venv part is missing. "
        f"On Debian or Ubuntu, as root: apt-get install {_venv_package()}"
    )


def _venv_package() -> str:
    return f"python{sys.version_info.major}.{sys.version_info.minor}-venv"


def _makes_environments(python: str) -> bool:
    test = [python, "-c", "import venv, ensurepip"]
    return subprocess.run(test, capture_output=True, check=False).returncode == 0
