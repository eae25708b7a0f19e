"""An environment counts as finished only when it fits the locks, the Python and the place."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

import stamp


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    (tmp_path / "lock.txt").write_text("numpy==2.0\n")
    return tmp_path


def wanted_in(repository: Path) -> dict[str, str]:
    return stamp.expected(repository, Path(sys.executable), [repository / "lock.txt"])


def test_no_stamp_means_not_finished(repository: Path) -> None:
    assert not stamp.holds(repository / "stamp.json", wanted_in(repository), "demo")


def test_a_stamp_fits_what_it_was_made_from(repository: Path) -> None:
    stamp.write(repository / "stamp.json", wanted_in(repository), "demo")
    assert stamp.holds(repository / "stamp.json", wanted_in(repository), "demo")


def test_the_base_is_not_enough_for_the_tests_but_the_other_way_round(repository: Path) -> None:
    stamp.write(repository / "stamp.json", wanted_in(repository), "demo")
    assert not stamp.holds(repository / "stamp.json", wanted_in(repository), "test")
    stamp.write(repository / "stamp.json", wanted_in(repository), "test")
    assert stamp.holds(repository / "stamp.json", wanted_in(repository), "demo")


@pytest.mark.parametrize("name", ["lock.txt", "pyproject.toml"])
def test_a_changed_lock_or_project_file_asks_for_a_new_environment(
    repository: Path, name: str
) -> None:
    stamp.write(repository / "stamp.json", wanted_in(repository), "demo")
    (repository / name).write_text("changed\n")
    assert not stamp.holds(repository / "stamp.json", wanted_in(repository), "demo")


def test_a_moved_folder_asks_for_a_new_environment(repository: Path) -> None:
    stamp.write(repository / "stamp.json", wanted_in(repository), "demo")
    moved = {**wanted_in(repository), "repository": "elsewhere"}
    assert not stamp.holds(repository / "stamp.json", moved, "demo")


def test_another_python_asks_for_a_new_environment(repository: Path) -> None:
    stamp.write(repository / "stamp.json", wanted_in(repository), "demo")
    other = {**wanted_in(repository), "python": "3.99"}
    assert not stamp.holds(repository / "stamp.json", other, "demo")


def test_a_python_that_went_away_asks_for_a_new_environment(repository: Path) -> None:
    gone = {**wanted_in(repository), "interpreter": str(repository / "gone")}
    stamp.write(repository / "stamp.json", gone, "demo")
    assert not stamp.holds(repository / "stamp.json", gone, "demo")


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", json.dumps({"part": "other"})])
def test_a_broken_stamp_means_not_finished(repository: Path, text: str) -> None:
    (repository / "stamp.json").write_text(text)
    assert not stamp.holds(repository / "stamp.json", wanted_in(repository), "demo")
