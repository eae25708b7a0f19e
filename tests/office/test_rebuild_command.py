"""`quarterwalk rebuild`: an office as it is started, its rows held to its journal."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from tests.contracts.source import ROOT

WALK = """
import sys, types
sys.modules["tests"] = tests = types.ModuleType("tests")
tests.__path__ = [sys.argv[1]]
from quarterwalk.cli.office import set_up
set_up()
from tests.office.people import settle
from tests.office.sender import Sender
people = settle()
bobs = Sender(people.bob, people.near)
said = bobs.walk(people.home, 8)
from quarterwalk.office.services.journal import take
from tests.office.sender import line
assert {a.answer for a in take(bobs.device, b"\\n".join(map(line, said)))} == {"held"}
print(said[0]["walk"])
"""


def surroundings(data: Path) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    return {**kept, "QUARTERWALK_DATA": str(data), "PYTHONPATH": str(ROOT / "src")}


def run(data: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *words], env=surroundings(data), text=True, capture_output=True,
        check=False, timeout=120,
    )  # fmt: skip


def rebuild(data: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return run(data, "-m", "quarterwalk", "rebuild", *words)


@pytest.fixture
def walk(tmp_path: Path) -> str:
    done = run(tmp_path, "-c", WALK, str(ROOT / "tests"))
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def alter(data: Path, statement: str) -> None:
    base = sqlite3.connect(data / "office.sqlite3")
    with base:
        assert base.execute(statement).rowcount == 1
    base.close()


def test_rows_altered_by_hand_are_named_and_made_again(tmp_path: Path, walk: str) -> None:
    whole = rebuild(tmp_path, "--check")
    assert (whole.returncode, whole.stderr) == (0, "")
    assert whole.stdout.startswith("10 entries, 1 walk")
    alter(tmp_path, "UPDATE office_checkrow SET nymphs = 9 WHERE position = 3")
    found = rebuild(tmp_path, "--check")
    assert found.returncode == 3
    assert walk in found.stderr
    assert rebuild(tmp_path, "--check").returncode == 3  # looking changes nothing
    assert rebuild(tmp_path).returncode == 0
    assert rebuild(tmp_path, "--check").returncode == 0


def test_an_office_without_a_walk_is_whole(tmp_path: Path) -> None:
    done = rebuild(tmp_path, "--check")
    assert (done.returncode, done.stdout) == (
        0, "0 entries, 0 walks: every row is what its entries tell.\n",
    )  # fmt: skip
