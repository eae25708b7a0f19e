"""A file holds one idea, and a function can be read at one look."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.contracts.source import ROOT, modules, short

MOST_MODULE_LINES = 450
MOST_FUNCTION_LINES = 50
MOST_PARAMETERS = 8

FILES = [*modules(), *sorted((ROOT / "tools").glob("*.py"))]


def functions(text: str) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def lines_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Count a function's lines without its docstring."""
    lines = (function.end_lineno or function.lineno) - function.lineno + 1
    if ast.get_docstring(function) is not None:
        said = function.body[0]
        lines -= (said.end_lineno or said.lineno) - said.lineno + 1
    return lines


def parameters_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Count a function's parameters, less the object that a method is called on."""
    taken = function.args
    named = [a.arg for a in (*taken.posonlyargs, *taken.args, *taken.kwonlyargs)]
    return len([name for name in named if name not in ("self", "cls")])


def too_big(path: Path, text: str) -> Iterator[str]:
    lines = len(text.splitlines())
    if lines > MOST_MODULE_LINES:
        yield f"{path} has {lines} lines, at most {MOST_MODULE_LINES}"
    for function in functions(text):
        if (lines := lines_of(function)) > MOST_FUNCTION_LINES:
            yield f"{path}: {function.name} has {lines} lines, at most {MOST_FUNCTION_LINES}"
        if (count := parameters_of(function)) > MOST_PARAMETERS:
            yield f"{path}: {function.name} takes {count} parameters, at most {MOST_PARAMETERS}"


def test_no_module_and_no_function_is_too_big() -> None:
    found = [
        what
        for path in FILES
        for what in too_big(Path(short(path)), path.read_text(encoding="utf-8"))
    ]
    assert FILES
    assert not found, "\n".join(found)


def test_a_docstring_does_not_count_against_a_function() -> None:
    body = "    x = 1\n" * 49
    told = 'def f(a):\n    """Say.\n\n    More.\n    """\n' + body
    assert not list(too_big(Path("f.py"), told))
    assert list(too_big(Path("f.py"), told + "    x = 2\n"))


def test_a_long_module_and_many_parameters_are_found() -> None:
    assert list(too_big(Path("f.py"), "x = 1\n" * 451))
    assert not list(too_big(Path("f.py"), "def f(self, a, b, c, d, e, f, g, *, h): ..."))
    assert list(too_big(Path("f.py"), "def f(a, b, c, d, e, f, g, *, h, i): ..."))
