"""What the phone page's modules do, tested by node: `node --test tests/phone`."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent
NODE = shutil.which("node")
TESTS = sorted(HERE.glob("*.test.js"))


@pytest.mark.skipif(NODE is None and "CI" not in os.environ, reason="needs node")
def test_the_modules_of_the_phone_page_pass_their_own_tests() -> None:
    assert NODE is not None, "the tests of the phone page need node"
    assert TESTS
    done = subprocess.run(
        [NODE, "--test", *TESTS], capture_output=True, text=True, check=False, timeout=300
    )
    assert done.returncode == 0, done.stdout + done.stderr
