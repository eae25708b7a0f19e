"""One PDF from a template and its data, set in memory and the same every time."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, date, datetime, time
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from quarterwalk.errors import MissingExtra

FONT = "Atkinson Hyperlegible Next"
FONTS = Path(__file__).parent / "fonts"

# Accessible PDF, ISO 14289-1: tagged, titled, with a language, every picture described.
READ_ALOUD = "ua-1"

_SVG = "{http://www.w3.org/2000/svg}"

PRELUDE = f"""\
#let data = json(bytes(sys.inputs.data))
#let picture(name, ..how) = image(
  bytes(json(bytes(sys.inputs.pictures)).at(name)), format: "svg", ..how)
#set document(title: sys.inputs.title)
#set text(font: "{FONT}", lang: sys.inputs.language, number-width: "tabular")
"""


def typeset(
    template: str,
    data: Mapping[str, object],
    pictures: Mapping[str, str] | None = None,
    *,
    title: str,
    on: date,
    language: str = "en",
) -> bytes:
    """Set a page to print, as the bytes of a PDF.

    Parameters
    ----------
    template : str
        Text of a typst template. It finds its data under ``data``, draws a picture by
        ``picture("name", alt: "what it shows")``, and is already given font, title and
        language.
    data : mapping of str to object
        Whatever JSON holds. It is printed as it stands, never read as markup.
    pictures : mapping of str to str, optional
        Drawings by name, each the text of an SVG.
    title : str
        What a reader's window shows, and what is read aloud first.
    on : date
        The day that the file says it was made.
    language : str
        Language of the text, as ``en`` or ``es``.

    Returns
    -------
    bytes
        The same for the same arguments. Accessible by PDF/UA-1, unless a text holds a
        character that no font here can draw: that one is printed as an empty box.

    Raises
    ------
    MissingExtra
        Where the report extra is not installed.
    """
    typst = _typst()
    inputs = {
        "data": json.dumps(data),
        "pictures": json.dumps(pictures or {}),
        "title": title,
        "language": language,
    }

    def compiled(standard: list[str]) -> bytes:
        made: bytes = typst.compile(
            (PRELUDE + template).encode(),
            root=FONTS,
            font_paths=_fonts(),
            format="pdf",
            sys_inputs=inputs,
            pdf_standards=standard,
            package_path=FONTS,
            package_cache_path=FONTS,
            timestamp=datetime.combine(on, time(), UTC),
        )
        return made

    try:
        return compiled([READ_ALOUD])
    except typst.TypstError as refused:
        if "could not be displayed" not in str(refused):
            raise
        return compiled([])


@cache
def _typst() -> Any:
    try:
        return import_module("typst")
    except ModuleNotFoundError as missing:
        raise MissingExtra("report", "PDFs") from missing


@cache
def _fonts() -> Any:
    """Load the fonts once; what the machine has installed must not change a page."""
    return _typst().Fonts(include_system_fonts=False, font_paths=[FONTS])


def picture_told(name: str, svg: str) -> dict[str, object]:
    """Say how a drawing is called, what it tells someone who hears it, and its proportions.

    Parameters
    ----------
    name : str
        Under which the template finds it.
    svg : str
        Its text.

    Returns
    -------
    dict
        `name`, `alt`, and `height` as a share of its width.
    """
    drawing = ElementTree.fromstring(svg)
    told = [drawing.findtext(f"{_SVG}{part}", "") for part in ("title", "desc")]
    width, height = map(float, drawing.attrib["viewBox"].split()[2:])
    alt = " ".join(text for text in told if text)
    return {"name": name, "alt": alt, "height": height / width}
