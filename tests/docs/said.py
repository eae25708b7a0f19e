"""What the code says and what the pages say, as the tests of the pages compare them."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from quarterwalk.call.clock_told import WEEK_CHANCES
from quarterwalk.call.season import Outside
from quarterwalk.crop import StageName
from tests.contracts.source import ROOT, modules

DOCS = ROOT / "docs"
_CODE = re.compile(r"[a-z]+(?:-[a-z]+)*")
_FENCE = re.compile(r"^```([^\n`]*)\n(.*?)^```[ ]*$", re.MULTILINE | re.DOTALL)


def pages() -> list[Path]:
    """Give every page that people read."""
    return [ROOT / "README.md", ROOT / "CHANGELOG.md", ROOT / "CONTRIBUTING.md",
            *sorted(DOCS.rglob("*.md"))]  # fmt: skip


def blocks(page: Path, *, kind: str) -> list[tuple[str, str]]:
    """Give a page's fenced blocks of one kind: all that stands behind the fence, and the text."""
    found = _FENCE.findall(page.read_text(encoding="utf-8"))
    return [(told.strip(), text) for told, text in found if told.split()[:1] == [kind]]


def rows(page: Path, heading: str) -> list[list[str]]:
    """Give the cells of the first table under a heading, without its first two lines."""
    under = section(page, heading)
    lines = [line for line in under.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


def section(page: Path, heading: str) -> str:
    """Give what stands under one heading, up to the next of its level."""
    text = page.read_text(encoding="utf-8")
    start = re.search(rf"^(#+) {re.escape(heading)}$", text, re.MULTILINE)
    assert start, f"{page.name} has no heading {heading!r}"
    end = re.search(rf"^#{{1,{len(start[1])}}} ", text[start.end() :], re.MULTILINE)
    return text[start.end() :][: end.start() if end else None]


def codes_in_call() -> set[str]:
    """Give every code of a reason or a caution that a call may carry."""
    found = {outside.value for outside in Outside} | {WEEK_CHANCES}
    found |= {f"host-weeds-{stage.value}" for stage in StageName}
    for path in modules("call"):
        found |= set(_codes(ast.parse(path.read_text(encoding="utf-8"))))
    return found


def _codes(tree: ast.AST) -> Iterator[str]:
    """Find codes as first words of Reason(...) and Caution(...), and in (code, text) pairs."""
    for node in ast.walk(tree):
        named = isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        if named and node.func.id in ("Reason", "Caution"):
            first = node.args[:1]
        elif isinstance(node, ast.Tuple) and len(node.elts) == 2 and _is_text(node.elts[1]):
            first = node.elts[:1]
        else:
            continue
        for word in first:
            if _is_text(word) and _CODE.fullmatch(word.value):
                yield word.value


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)
