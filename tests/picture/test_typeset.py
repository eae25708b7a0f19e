"""The program that sets the PDF can draw every drawing made for paper."""

from __future__ import annotations

from pathlib import Path

import pytest

from quarterwalk.picture import Theme
from tests.picture.drawn import every_drawing

typst = pytest.importorskip("typst")


def test_every_drawing_for_paper_can_be_set(tmp_path: Path) -> None:
    drawings = list(every_drawing(Theme.PRINT, width=820))
    for i, svg in enumerate(drawings):
        (tmp_path / f"{i}.svg").write_text(svg, encoding="utf-8")
    page = "\n".join(f'#image("{i}.svg")' for i in range(len(drawings)))
    (tmp_path / "page.typ").write_text(page, encoding="utf-8")
    made = typst.compile(tmp_path / "page.typ")
    assert made.startswith(b"%PDF")
