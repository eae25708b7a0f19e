"""Two ./run at once take turns."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from guard import only_one
from tests.contracts.source import ROOT

SECOND = """
import sys
from pathlib import Path
from guard import only_one
with only_one(Path(sys.argv[1])):
    print("in")
"""


def test_the_second_waits_until_the_first_is_done(tmp_path: Path) -> None:
    with only_one(tmp_path / "guard"):
        second = subprocess.Popen(
            [sys.executable, "-c", SECOND, tmp_path / "guard"],
            env={"PYTHONPATH": str(ROOT / "tools")},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        assert second.stderr
        assert "Waiting" in second.stderr.readline()
        assert second.poll() is None
    told, _ = second.communicate(timeout=30)
    assert told.strip() == "in"
