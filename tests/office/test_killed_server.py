"""What was acknowledged is held, though the office is killed at any moment."""

from __future__ import annotations

import os
import random
import re
import signal
import subprocess
import sys
import time
from http import HTTPStatus
from pathlib import Path
from threading import Thread

import psycopg
import pytest

from tests.office.ends import History, Said
from tests.office.histories import make_history
from tests.office.live import BEGINS, LOST, Live, live_office, surroundings
from tests.office.offices import cast_of

KILLS = 50
SEED = 20_260_618
TAKEN = {"held", "already-held"}


class Sender(Thread):
    """A phone that sends one batch; `heard` is what it may then forget."""

    may_break = False
    """Whether the office may answer that it is broken, since its database is."""

    def __init__(self, live: Live, batch: list[Said]) -> None:
        super().__init__(daemon=True)
        self.live, self.batch = live, batch
        self.heard: list[Said] = []
        self.fault = ""

    def run(self) -> None:
        try:
            status, answers = self.live.post(self.batch[0].device, self.batch)
        except LOST:
            return
        if self.may_break and status == HTTPStatus.INTERNAL_SERVER_ERROR:
            return
        if status != 200 or {answer["answer"] for answer in answers} - TAKEN:
            self.fault = f"{status}: {answers}"
        self.heard = self.batch


class Phones:
    """What the phones have not heard of yet, and what they have."""

    def __init__(self, live: Live, seed: int) -> None:
        self.live, self.rng = live, random.Random(seed)
        self.history: History = make_history(seed, cast_of(BEGINS), walks=60)
        self.unsent = {d: self.history.journal(d) for d in self.history.devices}
        self.heard: dict[tuple[str, int], bytes] = {}

    def begin(self) -> Sender:
        waiting = [device for device, said in self.unsent.items() if said]
        device = self.rng.choice(waiting)
        sender = Sender(self.live, self.unsent[device][: self.rng.randint(1, 25)])
        sender.start()
        return sender

    def end(self, sender: Sender) -> bool:
        """Wait for the answer, or for its loss."""
        sender.join()
        assert not sender.fault
        for said in sender.heard:
            self.unsent[said.device].remove(said)
            self.heard[said.key] = said.line
        return bool(sender.heard)

    def see(self) -> None:
        """All that was acknowledged is held, nothing twice, and every row fits its entries."""
        rows = self.live.held()
        held, true = dict(rows), {said.key: said.line for said in self.history.said}
        assert len(held) == len(rows) == self.live.count()
        assert self.heard.items() <= held.items() <= true.items()
        assert self.live.differing() == []

    def finish(self) -> None:
        """Send what is left, then everything once more."""
        while any(self.unsent.values()):
            assert self.end(self.begin())
        for device in self.history.devices:
            status, answers = self.live.post(device, self.history.journal(device))
            assert status == 200
            assert {answer["answer"] for answer in answers} == {"already-held"}
        assert len(self.heard) == len(self.history.said)
        self.see()


def see_fifty_kills(live: Live) -> None:
    """Kill at seeded moments: half of them within a request, half as its answer is read."""
    phones, lost = Phones(live, SEED), 0
    usual = usual_time(phones)
    for _ in range(KILLS):
        sender = phones.begin()
        if phones.rng.random() < 0.6:
            time.sleep(phones.rng.uniform(0, 1.1 * usual))
        else:
            sender.join()
        live.kill()
        live.serve()
        lost += not phones.end(sender)
        phones.see()
    phones.finish()
    assert lost >= KILLS // 10, f"only {lost} kills fell into a request"


def usual_time(phones: Phones) -> float:
    """Measure how long a batch takes at a server that has just begun. [s]"""
    begun = time.perf_counter()
    for _ in range(3):
        phones.live.kill()
        phones.live.serve()
        assert phones.end(phones.begin())
    return (time.perf_counter() - begun) / 3


@pytest.mark.slow
def test_fifty_kills_lose_and_double_nothing(tmp_path: Path) -> None:
    with live_office(tmp_path) as live:
        see_fifty_kills(live)


@pytest.mark.slow
def test_fifty_kills_lose_and_double_nothing_on_postgres(tmp_path: Path, postgres_url: str) -> None:
    with live_office(tmp_path, postgres_url) as live:
        see_fifty_kills(live)


@pytest.mark.slow
def test_a_database_that_dies_loses_and_doubles_nothing(
    tmp_path: Path, postgres_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Sender, "may_break", True)
    with live_office(tmp_path, postgres_url) as live:
        phones, broken = Phones(live, SEED + 2), 0
        for _ in range(10):
            sender = phones.begin()
            time.sleep(phones.rng.uniform(0, 0.05))
            kill_database(postgres_url)
            broken += not phones.end(sender)
            wait_for_database(postgres_url)
            phones.see()
        live.kill()  # whose connections may each be broken still
        live.serve()
        phones.finish()
    assert broken


def kill_database(url: str) -> None:
    """Kill one of the database's processes; see it end another, as it ends all, to begin again."""
    with psycopg.connect(url, autocommit=True) as other:
        with psycopg.connect(url) as connection:
            os.kill(connection.info.backend_pid, signal.SIGKILL)
        with pytest.raises(psycopg.OperationalError):
            other.execute("SELECT pg_sleep(60)")


def wait_for_database(url: str) -> None:
    for _ in range(600):
        try:
            psycopg.connect(url).close()
        except psycopg.OperationalError:
            time.sleep(0.05)
        else:
            return
    raise AssertionError("the database did not come back")


@pytest.mark.slow
def test_the_command_that_serves_begins_again_after_a_kill(tmp_path: Path) -> None:
    with live_office(tmp_path) as live:
        phones = Phones(live, SEED + 1)
        live.kill()
        for _ in range(3):
            served = serve_command(tmp_path)
            live.pid, live.port = served.pid, port_of(served)
            sender = phones.begin()
            time.sleep(phones.rng.uniform(0, 0.2))
            live.kill()
            served.communicate()
            phones.end(sender)
        live.serve()
    done = subprocess.run(
        [sys.executable, "-m", "quarterwalk", "rebuild", "--check", "--data", str(tmp_path)],
        env=surroundings(tmp_path), capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert "every row is what its entries tell" in done.stdout


def serve_command(data: Path) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "quarterwalk", "serve", "--data", str(data), "--port", "0"],
        env=surroundings(data), stdout=subprocess.PIPE, text=True,
    )  # fmt: skip


def port_of(served: subprocess.Popen[str]) -> int:
    """Read what the command prints until it says where the office is."""
    assert served.stdout is not None
    for line in served.stdout:
        found = re.search(r"The office is at http://127\.0\.0\.1:(\d+)/", line)
        if found:
            return int(found[1])
    raise AssertionError("the command did not say where the office is")
