"""Who reads the output may stop at any line, as `head` does; nobody is shown a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

RULE = ["--guideline", "kansas", "--first-square", "2026-06-10"]
WALKS = "field,date,quadrant,plant,adults,nymphs\n"
COMMANDS = {
    "refused walks": ["call", "walks.csv", *RULE],
    "refused weather": ["weather", "weather.csv"],
    "a wrong rule": ["call", "walks.csv", "--guideline", "nowhere"],
    "a wrong word": ["weather"],
}
STATUS = {"refused walks": 3, "refused weather": 3, "a wrong rule": 2, "a wrong word": 2}


def left_by(reader: str, words: list[str], folder: Path) -> tuple[int, bytes, bytes]:
    """Run a command one of whose streams nobody reads; give its status and the other one."""
    rows = "".join(f"Home,2026-06-2{n % 9 + 1},NW,{n},x,0\n" for n in range(1, 3000))
    (folder / "walks.csv").write_text(WALKS + rows)
    days = "".join(f"2026-06-01,{n}x,95\n" for n in range(3000))
    (folder / "weather.csv").write_text(f"date,tmin_f,tmax_f\n{days}")
    paths = os.pathsep.join(str(Path(p).resolve()) for p in sys.path if p)
    with subprocess.Popen(
        [sys.executable, "-m", "quarterwalk", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": paths},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as command:
        assert command.stdout is not None
        assert command.stderr is not None
        (command.stdout if reader == "out" else command.stderr).close()
        other = command.stderr if reader == "out" else command.stdout
        said = other.read()
        status = command.wait(timeout=60)
    return (status, b"", said) if reader == "out" else (status, said, b"")


@pytest.mark.skipif(os.name != "posix", reason="pipes end otherwise elsewhere")
@pytest.mark.parametrize("reader", ["out", "err"])
@pytest.mark.parametrize("which", COMMANDS)
def test_a_refusal_keeps_its_exit_status(which: str, reader: str, tmp_path: Path) -> None:
    words = COMMANDS[which]
    as_json = [*words, "--json"] if "refused" in which else words
    status, out, err = left_by(reader, as_json, tmp_path)
    assert status == STATUS[which]
    assert b"Traceback" not in err
    assert b"BrokenPipe" not in err
    if reader == "out":
        assert err
    elif "refused" in which:
        assert len(json.loads(out)["errors"]) == 50
