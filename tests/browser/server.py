"""An office in a process of its own, that can be stopped, killed, and started at the same port."""

from __future__ import annotations

import json
import os
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from urllib.error import URLError
from urllib.request import urlopen
from zoneinfo import ZoneInfo

from tests.contracts.source import ROOT

HERE = Path(__file__).resolve().parent
ZONE = "America/Chicago"
MORNING = datetime(2026, 7, 1, 9, tzinfo=ZoneInfo(ZONE))
"""The office's clock when the tests begin: mid-season, and never near midnight."""

SHIFT_MS = (MORNING - datetime.now(UTC)) // timedelta(milliseconds=1)
PATIENCE = 30
"""How long a process may take to start or to end. [s]"""


def surroundings() -> dict[str, str]:
    """Give the environment of a process of the office."""
    told = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    return {
        **told,
        "QUARTERWALK_SHIFT_MS": str(SHIFT_MS),
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        "PYTHONPATH": str(ROOT / "src"),
        "PYTHONUNBUFFERED": "1",
    }


def fill(data: Path) -> dict[str, Any]:
    """Fill a fresh office in a folder, and say what is in it."""
    done = subprocess.run(
        [sys.executable, str(HERE / "fill.py"), str(data)],
        env=surroundings(),
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return told


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@dataclass
class Server:
    """One office: its data, its port, and its process while it runs.

    `start_with` are the words that start it; a test may give a wrapper in place of the command.
    """

    data: Path
    told: dict[str, Any]
    start_with: Sequence[str] = ("-m", "quarterwalk", "serve")
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def phone(self) -> str:
        return f"{self.url}/phone/"

    def start(self) -> None:
        """Start it, and wait until it answers."""
        self.process = subprocess.Popen(
            [sys.executable, *self.start_with, "--data", str(self.data), "--port", str(self.port)],
            env=surroundings(),
            stdout=subprocess.DEVNULL,
            stderr=(self.data / "stderr.txt").open("ab"),
        )
        patient_until = time.monotonic() + PATIENCE
        while not self._answers():
            assert self.process.poll() is None, self.said()
            assert time.monotonic() < patient_until, f"no answer in {PATIENCE} s: {self.said()}"
            time.sleep(0.05)

    def _answers(self) -> bool:
        try:
            with urlopen(f"{self.url}/healthy", timeout=1) as answer:
                return bool(answer.read() == b"ok")
        except (URLError, OSError):
            return False

    def stop(self) -> None:
        """End the process as Ctrl-C does; from then on nobody listens at the port."""
        self._end(signal.SIGTERM)

    def kill(self) -> None:
        self._end(signal.SIGKILL)

    def _end(self, how: signal.Signals) -> None:
        if self.process is None:
            return
        self.process.send_signal(how)
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(PATIENCE)
        self.process = None
        assert not self._answers(), "something still answers at the office's port"

    def said(self) -> str:
        """Give what the process wrote to its standard error."""
        return (self.data / "stderr.txt").read_text(encoding="utf-8", errors="replace")

    def rows(self, query: str, *values: str | int) -> list[tuple[Any, ...]]:
        """Read rows of the database past all of the office's own code."""
        database = sqlite3.connect(self.data / "office.sqlite3")
        try:
            return database.execute(query, values).fetchall()
        finally:
            database.close()

    def copied(self, to: Path) -> Server:
        """Give another office with the same content."""
        shutil.copytree(self.data, to)
        return Server(to, self.told, self.start_with)
