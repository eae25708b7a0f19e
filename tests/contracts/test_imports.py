"""An import points to a lower level only, and the core touches nothing outside."""

from __future__ import annotations

import ast
import shutil
import subprocess
import sysconfig
from pathlib import Path

import pytest

from tests.contracts.source import CORE, PACKAGE, ROOT, modules, short

LINTER = Path(sysconfig.get_path("scripts")) / "lint-imports"
OUTSIDE = {
    "today": "the clock",
    "now": "the clock",
    "utcnow": "the clock",
    "time": "the clock",
    "default_rng": "dice",
    "open": "the disk",
    "write_text": "the disk",
    "write_bytes": "the disk",
    "print": "the screen",
    "input": "the keyboard",
}
FORBIDDEN_MODULES = {"random", "secrets", "socket", "subprocess", "time", "uuid", "urllib"}


def lint_imports(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [LINTER, "--no-logo", "--no-cache", ROOT / "pyproject.toml"],
        cwd=folder,
        env={"PYTHONPATH": str(folder), "PATH": ""},
        capture_output=True,
        text=True,
        check=False,
    )


def test_every_import_points_to_a_lower_level() -> None:
    done = lint_imports(ROOT / "src")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(
    ("lower", "higher"), [("errors", "walk"), ("walk", "guideline"), ("reading", "call")]
)
def test_an_import_that_points_up_or_across_is_refused(
    tmp_path: Path, lower: str, higher: str
) -> None:
    shutil.copytree(PACKAGE, tmp_path / "quarterwalk")
    home = tmp_path / "quarterwalk" / lower
    module = home / "__init__.py" if home.is_dir() else home.with_suffix(".py")
    module.write_text(module.read_text(encoding="utf-8") + f"\nimport quarterwalk.{higher}\n")
    done = lint_imports(tmp_path)
    assert done.returncode != 0
    assert f"quarterwalk.{lower} -> quarterwalk.{higher}" in done.stdout


def test_a_package_without_a_level_is_refused(tmp_path: Path) -> None:
    shutil.copytree(PACKAGE, tmp_path / "quarterwalk")
    (tmp_path / "quarterwalk" / "weather_vane.py").write_text("")
    done = lint_imports(tmp_path)
    assert done.returncode != 0
    assert "weather_vane" in done.stdout


def reaches_outside(tree: ast.AST) -> list[str]:
    """Name each call or import that would make the core depend on more than what it is given."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            called = node.func
            name = getattr(called, "attr", None) or getattr(called, "id", "")
            if name in OUTSIDE:
                found.append(f"line {node.lineno}: {name}() is {OUTSIDE[name]}")
        elif isinstance(node, ast.Import | ast.ImportFrom):
            names = [alias.name for alias in node.names]
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else names
            found += [
                f"line {node.lineno}: imports {name}"
                for name in names
                if name.split(".")[0] in FORBIDDEN_MODULES
            ]
    return found


def test_the_core_reads_no_clock_throws_no_dice_and_opens_no_file() -> None:
    found = [
        f"{short(path)} {what}"
        for path in modules(*CORE)
        for what in reaches_outside(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "line", ["date.today()", "import time", "np.random.default_rng(1)", "from random import choice"]
)
def test_the_check_of_the_core_sees_a_clock_and_dice(line: str) -> None:
    assert reaches_outside(ast.parse(line))
