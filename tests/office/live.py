"""A live office to which phones speak by HTTP, and which can be killed."""

from __future__ import annotations

import http.client
import json
import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import psycopg

from tests.contracts.source import ROOT
from tests.office.ends import Said

BEGINS = datetime(2026, 6, 18, 6, tzinfo=UTC)
SEES = BEGINS + timedelta(hours=20)
"""The office's clock when the phones begin to send."""

LOST = (ConnectionError, http.client.HTTPException, TimeoutError)
"""What a phone gets in place of an answer while the office dies."""

# another package called tests may be installed: ours is named by its place
START = f"""
import sys, types
sys.modules["tests"] = tests = types.ModuleType("tests")
tests.__path__ = [{str(ROOT / "tests")!r}]
from tests.office.killable import main
main()
"""
HELD = "SELECT key_device, key_seq, raw FROM office_journalentry WHERE state = 'held'"
EVERY = "SELECT count(*) FROM office_journalentry"


def shift_ms() -> int:
    """Say how far the office's clock must be moved to stand at `SEES` now."""
    return (SEES - datetime.now(UTC)) // timedelta(milliseconds=1)


@dataclass
class Live:
    """One office that runs: its parent process, where it is, and who may send."""

    parent: subprocess.Popen[str]
    data: Path
    url: str
    port: int = 0
    tokens: dict[str, str] | None = None
    pid: int = 0

    def serve(self) -> None:
        self.pid = self._ask("serve")

    def kill(self) -> None:
        os.kill(self.pid, signal.SIGKILL)

    def differing(self) -> list[str]:
        """Name the walks whose rows are not what their entries tell."""
        found: list[str] = self._ask("check")
        return found

    def _ask(self, command: str) -> Any:
        assert self.parent.stdin is not None
        self.parent.stdin.write(command + "\n")
        self.parent.stdin.flush()
        return self.heard()

    def heard(self) -> Any:
        assert self.parent.stdout is not None
        line = self.parent.stdout.readline()
        assert line, "the office's parent process has gone"
        return json.loads(line)

    def held(self) -> list[tuple[tuple[str, int], bytes]]:
        """Read what is held past all of the office's own code."""
        return [((device, seq), bytes(raw)) for device, seq, raw in self._rows(HELD)]

    def count(self) -> int:
        return int(self._rows(EVERY)[0][0])

    def _rows(self, query: str) -> Sequence[tuple[Any, ...]]:
        if self.url:
            with psycopg.connect(self.url) as postgres:
                return postgres.execute(query).fetchall()
        lite = sqlite3.connect(self.data / "office.sqlite3")
        try:
            return lite.execute(query).fetchall()
        finally:
            lite.close()

    def post(self, device: str, lines: Sequence[Said]) -> tuple[int, list[dict[str, Any]]]:
        """Send a batch as a phone does; raises one of `LOST` where no answer came."""
        assert self.tokens is not None
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        try:
            connection.request(
                "POST",
                "/sync/entries",
                b"".join(said.line + b"\n" for said in lines),
                {
                    "Authorization": f"Bearer {self.tokens[device]}",
                    "Content-Type": "application/x-ndjson",
                },
            )
            answer = connection.getresponse()
            text = answer.read()
        finally:
            connection.close()
        return answer.status, json.loads(text)["answers"] if answer.status == 200 else []


def surroundings(data: Path, url: str = "") -> dict[str, str]:
    """Give the environment of a process of the office."""
    return {
        **os.environ,
        "QUARTERWALK_DATA": str(data),
        "QUARTERWALK_SHIFT_MS": str(shift_ms()),
        "DATABASE_URL": url,
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        "PYTHONPATH": str(ROOT / "src"),
        "PYTHONUNBUFFERED": "1",
    }


@contextmanager
def live_office(data: Path, url: str = "") -> Iterator[Live]:
    """Open an office of its own in a folder, or in a PostgreSQL database."""
    parent = subprocess.Popen(
        [sys.executable, "-c", START, BEGINS.isoformat()],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=surroundings(data, url),
    )
    live = Live(parent, data, url)
    try:
        said = live.heard()
        live.port, live.tokens = said["port"], said["tokens"]
        live.serve()
        yield live
    finally:
        assert parent.stdin is not None
        parent.stdin.close()
        parent.wait(30)
