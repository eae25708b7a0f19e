"""A missing part is named with its package and with what goes untested without it."""

from __future__ import annotations

import pytest

import system
from system import Part, bring, left_out

GIT = Part("git", "git-package", "the check of what is tracked")
BASH = Part("bash", "bash", "completion")


def only_bash(command: str) -> str | None:
    return "found" if command == "bash" else None


def test_nothing_is_said_when_nothing_is_missing() -> None:
    assert left_out([]) == []


def test_a_missing_part_is_named_with_its_package_and_its_use(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(system, "may_install", lambda: False)
    missing = bring([GIT, BASH], find=only_bash)
    text = "\n".join(left_out(missing))
    assert missing == [GIT]
    assert "apt-get install git-package" in text
    assert "the check of what is tracked" in text
    assert "completion" not in text


def test_a_missing_part_is_fetched_where_that_is_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    fetched: list[str] = []

    def fetch(packages: list[str]) -> bool:
        fetched.extend(packages)
        return True

    monkeypatch.setattr(system, "may_install", lambda: True)
    monkeypatch.setattr(system, "fetch", fetch)
    missing = bring([GIT, BASH], find=lambda command: "found" if fetched else only_bash(command))
    assert (fetched, missing) == (["git-package"], [])


def test_a_python_that_makes_no_environments_names_the_package_that_helps() -> None:
    assert "-venv" in system.venv_hint()
    assert "apt-get install python3." in system.venv_hint()
