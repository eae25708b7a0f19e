"""A PostgreSQL of the tests' own, in a temporary folder, and tests that are run again on it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from tests.conftest import DATABASE
from tests.contracts.source import ROOT

# It refuses to run as root; the package makes this account.
ACCOUNT = "postgres"
QUICK = "-c fsync=off -c full_page_writes=off -c listen_addresses="


def programs() -> Path | None:
    """Find the folder of PostgreSQL's programs, the newest first."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=_version, reverse=True)
    on_path = shutil.which("initdb")
    places = [*found, *([Path(on_path).resolve()] if on_path else [])]
    return next((place.parent for place in places if (place.parent / "pg_ctl").exists()), None)


def _version(initdb: Path) -> int:
    name = initdb.parent.parent.name
    return int(name) if name.isdigit() else 0


@contextmanager
def cluster(bin_folder: Path) -> Iterator[str]:
    """Run a cluster that nobody else reaches, and give the beginning of its databases' URLs."""
    account = ACCOUNT if os.geteuid() == 0 else None
    folder = Path(tempfile.mkdtemp(prefix="quarterwalk-postgres-"))
    if account:
        shutil.chown(folder, account)
    data = folder / "data"
    # by a socket in its own folder: no port that might be taken
    options = f"{QUICK} -c unix_socket_directories={folder}"

    def run(program: str, *words: str) -> None:
        command = [str(bin_folder / program), "-D", str(data), *words]
        done = subprocess.run(
            command, user=account, cwd=folder, check=False, timeout=120, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip
        assert done.returncode == 0, done.stdout

    try:
        run("initdb", "--username=postgres", "--auth=trust", "--no-sync", "--encoding=UTF8",
            "--locale=C")  # fmt: skip
        run("pg_ctl", "--wait", "--log", str(folder / "log"), "--options", options, "start")
        try:
            yield f"postgres://postgres@{quote(str(folder), safe='')}/"
        finally:
            run("pg_ctl", "--wait", "--mode=immediate", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def passes_on_postgres(url: str, *words: str) -> None:
    """Run tests in a process of their own, whose office keeps its rows in PostgreSQL.

    Parameters
    ----------
    url : str
        From the fixture `postgres_url`.
    words : str
        Which tests, as pytest takes them; paths from the repository's folder.
    """
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:xdist"]
    surroundings = {**os.environ, DATABASE: url}
    surroundings.pop("DATABASE_URL", None)
    for name in [name for name in surroundings if name.startswith("PYTEST_")]:
        del surroundings[name]
    done = subprocess.run(
        [*command, *words], cwd=ROOT, env=surroundings, check=False, timeout=1200, text=True,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout[-6000:]
    assert "passed" in done.stdout
