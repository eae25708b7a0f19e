"""uv brings the packages; where it can't, pip does; where neither can, the user is told."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest

import packages
import retry
from said import SetupFailed

LOCKS = [Path("lock.txt")]


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Stand in for uv and pip: record who was called, and let no real time pass."""
    monkeypatch.setattr(packages, "succeeds", partial(retry.succeeds, sleep=lambda pause: None))
    return []


def stand_in(
    monkeypatch: pytest.MonkeyPatch, calls: list[str], *, uv: list[bool], pip: list[bool]
) -> None:
    def by_uv(venv: Path, words: list[str]) -> bool:
        calls.append("uv")
        return uv.pop(0)

    def by_pip(venv: Path, words: list[str]) -> bool:
        calls.append("pip for uv" if "uv.txt" in words else "pip")
        return pip.pop(0)

    monkeypatch.setattr(packages, "_by_uv", by_uv)
    monkeypatch.setattr(packages, "_by_pip", by_pip)
    monkeypatch.setattr(packages, "_has_uv_program", lambda venv: True)


def test_uv_alone_is_enough(monkeypatch: pytest.MonkeyPatch, ran: list[str]) -> None:
    stand_in(monkeypatch, ran, uv=[True], pip=[True])
    packages.install(Path("venv"), Path("uv.txt"), LOCKS)
    assert ran == ["pip for uv", "uv"]


def test_a_dropped_download_is_tried_again(monkeypatch: pytest.MonkeyPatch, ran: list[str]) -> None:
    stand_in(monkeypatch, ran, uv=[False, True], pip=[True])
    packages.install(Path("venv"), Path("uv.txt"), LOCKS)
    assert ran == ["pip for uv", "uv", "uv"]


def test_pip_takes_over_where_uv_is_not_to_be_had(
    monkeypatch: pytest.MonkeyPatch, ran: list[str]
) -> None:
    stand_in(monkeypatch, ran, uv=[], pip=[False, False, False, True])
    packages.install(Path("venv"), Path("uv.txt"), LOCKS)
    assert ran == [*["pip for uv"] * 3, "pip"]


def test_when_nothing_can_be_fetched_the_user_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch, ran: list[str]
) -> None:
    stand_in(monkeypatch, ran, uv=[False] * 5, pip=[True, *[False] * 5])
    with pytest.raises(SetupFailed, match="run the same command again"):
        packages.install(Path("venv"), Path("uv.txt"), LOCKS)


def test_settings_that_lead_packages_astray_are_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONPATH", "elsewhere")
    monkeypatch.setenv("PIP_TARGET", "elsewhere")
    monkeypatch.setenv("PIP_INDEX_URL", "https://mirror.example/simple")
    kept = packages.clean_environment()
    assert "PYTHONPATH" not in kept
    assert "PIP_TARGET" not in kept
    assert kept["PIP_INDEX_URL"] == "https://mirror.example/simple"


def test_a_complaint_is_cut_down_to_what_helps() -> None:
    printed = "WARNING: no such folder\nERROR: hashes differ\n" + "    Expected     or 00\n" * 90
    assert packages.worth_showing(printed) == ["ERROR: hashes differ"]


def test_a_complaint_of_warnings_alone_is_still_shown() -> None:
    assert packages.worth_showing("WARNING: the disk is full\n") == ["WARNING: the disk is full"]
