"""Every sentence that the program may word, read from its source without running it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import quarterwalk

SOURCE = Path(quarterwalk.__file__).parent

# Where each function takes what the catalogue is asked by: context, one, many.
PLACES: dict[str, tuple[int | None, int, int | None]] = {
    "phrase": (None, 0, None),
    "noted": (None, 0, None),
    "phrase_as": (0, 1, None),
    "phrase_for": (None, 1, 2),
}


@dataclass(frozen=True)
class Sentence:
    """What the catalogue is asked for, and where."""

    context: str | None
    one: str
    many: str | None


def sentences_in(source: str) -> Iterator[Sentence]:
    """Read the sentences of one module; one that could not be gathered is refused."""
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            for call in _wordings(node):
                raise ValueError(f"line {call.lineno}: a sentence must stand outside an f-string")
    for call in _wordings(tree):
        yield from _sentence(call)


def _wordings(tree: ast.AST) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Name)
            and node.func.id in PLACES
        ):
            yield node


def _sentence(call: ast.Call) -> Iterator[Sentence]:
    assert isinstance(call.func, ast.Name)
    texts = [None if at is None else _text(call.args[at]) for at in PLACES[call.func.id]]
    if texts[1] is not None:
        yield Sentence(texts[0], texts[1], texts[2])


def _text(node: ast.expr) -> str | None:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, (ast.Name, ast.Attribute, ast.Subscript)):
        return None  # marked by `noted` where it stands
    raise ValueError(f"line {node.lineno}: a sentence must stand whole, got {ast.unparse(node)}")


def modules_that_word() -> list[Path]:
    """Every module but the one that defines the words."""
    return [path for path in sorted(SOURCE.rglob("*.py")) if path.name != "words.py"]


def every_sentence() -> set[Sentence]:
    """Every sentence of the program."""
    return {
        found
        for path in modules_that_word()
        for found in sentences_in(path.read_text(encoding="utf-8"))
    }


def faults() -> list[str]:
    """Where a sentence stands so that it can't be gathered."""
    found = []
    for path in modules_that_word():
        try:
            list(sentences_in(path.read_text(encoding="utf-8")))
        except ValueError as fault:
            found.append(f"{path.relative_to(SOURCE)}, {fault}")
    return found
