"""A wheel does the main job in an empty environment, with the base packages alone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from environment import LOCKS, make_bare
from packages import clean_environment, install, programs, python_of
from tests.contracts.source import ROOT

# In one group, so that one worker makes the environment once for both.
pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("wheel")]

WALK = "field,date,quadrant,stop,plant,adults,nymphs,healthy,missing,blasted\n" + "".join(
    f"Home 40,2026-06-18,{quadrant},{plant // 5 + 1},{plant + 1},{int(plant == 3)},0,4,0,0\n"
    for quadrant in ("NW", "NE", "SW", "SE")
    for plant in range(25)
)


@pytest.fixture(scope="module")
def command(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel, and install it where nothing else of the repository is in sight."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(build, cwd=ROOT, check=True)
    (wheel,) = folder.glob("*.whl")
    venv = folder / "venv"
    make_bare(venv)
    install(venv, LOCKS / "uv.txt", [LOCKS / "base.txt"])
    pip = [str(python_of(venv)), "-m", "pip", "install", "--quiet", "--no-deps", str(wheel)]
    subprocess.run(pip, env=clean_environment(), check=True)
    return programs(venv) / "quarterwalk"


def call(command: Path, *words: str, folder: Path) -> str:
    done = subprocess.run(
        [command, *words],
        cwd=folder,
        env={"PATH": os.environ["PATH"], "HOME": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_wheel_runs_the_demo(command: Path, tmp_path: Path) -> None:
    told = call(command, "demo", "--out", str(tmp_path / "out"), folder=tmp_path)
    assert "out" in told
    assert any(path.stat().st_size for path in (tmp_path / "out").iterdir())


def test_the_wheel_makes_a_call(command: Path, tmp_path: Path) -> None:
    (tmp_path / "walk.csv").write_text(WALK)
    words = ("--guideline", "southern-high-plains", "--first-square", "2026-06-10")
    told = call(command, "call", "walk.csv", *words, "--json", folder=tmp_path)
    assert '"hold"' in told
