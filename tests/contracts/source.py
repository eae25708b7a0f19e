"""Where the source lies, for the tests that read it as text."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "quarterwalk"
CORE = ("walk", "journal", "guideline", "field", "reading", "call", "picture", "card")
"""Packages that are pure: no clock, no dice, no disk."""


def modules(*folders: str) -> list[Path]:
    """Give the package's Python files, or those of the folders named."""
    found = [PACKAGE] if not folders else [PACKAGE / folder for folder in folders]
    return sorted(path for folder in found for path in folder.rglob("*.py"))


def short(path: Path) -> str:
    """Name a file as a test run prints it."""
    return path.relative_to(ROOT).as_posix()
