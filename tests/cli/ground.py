"""Boundaries as files, for the tests of the command line."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from quarterwalk.cli import main
from tests.files.drawings import block, feature, geojson

DAY = ["--date", "2026-06-20"]

Run = Callable[..., tuple[str, str]]


def run_in(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Run:
    """Give a way to run a command in a folder that gives its output and its notices."""
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*words: str, status: int = 0) -> tuple[str, str]:
        try:
            left = main(words)
        except SystemExit as stopped:
            left = stopped.code
        said = capsys.readouterr()
        assert left == status, said.err
        return said.out, said.err

    return run


def write_fields(*named: str, path: str = "fields.geojson", **said: object) -> str:
    """Write fields of about 122 acres side by side, and give the file's name."""
    features = [feature([block(0.01 * n)], name=name, **said) for n, name in enumerate(named)]
    Path(path).write_bytes(geojson(*features))
    return path


def write_field(wide: float, high: float, *, name: str = "Home", path: str = "one.geojson") -> str:
    """Write one field of so many degrees, and give the file's name."""
    Path(path).write_bytes(geojson(feature([block(wide=wide, high=high)], name=name)))
    return path


def of_kind(told: dict[str, Any], kind: str) -> Iterator[dict[str, Any]]:
    """Give the features of a kind."""
    return (f for f in told["features"] if f["properties"]["kind"] == kind)


def files_in(folder: str) -> set[str]:
    return {path.name for path in Path(folder).iterdir()}


def read_json(path: str | Path) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(Path(path).read_text(encoding="utf-8"))
    return told
