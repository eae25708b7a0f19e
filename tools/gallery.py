"""Makes the pictures of the pages: sketches as SVG, printed pages as grey PNG.

Run it with the environment that `./run demo` makes: `.venv/bin/python tools/gallery.py`.
It needs the report extra, and pdftoppm from poppler-utils. The drawings come out the same
each time; the PNGs do so with one version of poppler.
"""

from __future__ import annotations

import runpy
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import date
from io import StringIO
from pathlib import Path

from quarterwalk.cli import main as quarterwalk
from quarterwalk.field import Field, lay_out
from quarterwalk.files.boundaries import read_fields
from quarterwalk.picture import Theme, field_sketch, on_paper
from said import SetupFailed, say

ROOT = Path(__file__).resolve().parents[1]
GALLERY = ROOT / "docs" / "gallery"

DAY = date(2026, 6, 26)
"""The day that the sketches are laid out for."""

RULE = "southern-high-plains"
ADVISOR = "Tamsin Orrick"

FROM_THE_DISTRICT = {
    "switchback": "Switchback 140",
    "gin-road": "Gin Road 120",
    "playa": "Playa 60",
    "pump-house": "Pump House 85",
}
"""Fields of the demo district with a picture of their own."""

FROM_THE_TESTS = {
    "shape-l": "L",
    "shape-circle": "circle with a corner cut",
    "shape-c": "C",
    "shape-comb": "comb",
    "shape-strip": "strip",
    "shape-hole": "hole",
    "shape-two-pieces": "two",
    "shape-islands": "islands",
}
"""Shapes that the tests lay out."""

# A long field is drawn wide. [pixels]
WIDE = {"strip": (820, 170), "islands": (820, 360)}

# A page at this reads well on a screen and stays under 120 kB. [dots per inch]
_DPI = 110
_HEAVIEST = 120_000
"""A page has at most so many bytes. [bytes]"""


@dataclass(frozen=True, slots=True)
class Printed:
    """A printed page in the gallery, and the PDF of the demo it is taken from."""

    picture: str
    pdf: str
    page: int = 1


PRINTED = (
    Printed("report-treat", "reports/Sand-Draw-110-2026-07-12.pdf"),
    Printed("report-look-sooner", "reports/Gin-Road-120-2026-07-12.pdf"),
    Printed("report-hold", "reports/Switchback-140-2026-07-10.pdf"),
    Printed("report-no-call", "reports/Old-Airstrip-150-2026-07-01.pdf"),
    Printed("report-spanish", "spanish/Pump-House-85-2026-07-11.pdf"),
    Printed("season-replanted", "seasons/Late-Forty.pdf"),
    Printed("season-blooming", "seasons/Old-Airstrip-150.pdf"),
    Printed("sheet-1", "sheets/Playa-60-sheet.pdf", page=1),
    Printed("sheet-2", "sheets/Playa-60-sheet.pdf", page=2),
)


def main() -> int:
    """Make every picture, and say which."""
    if shutil.which("pdftoppm") is None:
        raise SetupFailed("pdftoppm is needed for the pages: install poppler-utils.")
    GALLERY.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as where:
        folder = Path(where)
        print_the_demo(folder)
        for name, svg in sketches(folder / "fields.geojson"):
            (GALLERY / f"{name}.svg").write_text(svg + "\n", encoding="utf-8")
        for each in PRINTED:
            show(folder / each.pdf, each)
    say(f"{GALLERY.relative_to(ROOT)} holds {len(list(GALLERY.iterdir()))} pictures.")
    return 0


def sketches(fields: Path) -> Iterator[tuple[str, str]]:
    """Draw the fields of the district, then the odd shapes, each with its picture's name."""
    district = {field.name: field for field in read_fields(fields).fields}
    for picture, name in FROM_THE_DISTRICT.items():
        yield picture, sketch(district[name], picture, (560, 520))
    tested = runpy.run_path(str(ROOT / "tests" / "field" / "shapes.py"))
    shapes = tested["SHAPES"] | tested["PIECES"]
    for picture, name in FROM_THE_TESTS.items():
        field: Field = tested["field_of"](shapes[name], name)
        yield picture, sketch(field, picture, WIDE.get(name, (400, 400)))


def sketch(field: Field, picture: str, size: tuple[int, int]) -> str:
    """Draw one field, its stops and its loops, on white paper of a size of its own."""
    width, height = size
    svg = field_sketch(
        lay_out(field, DAY),
        theme=Theme.PRINT,
        width=width,
        height=height,
        id=picture,
        language="en",
    )
    return on_paper(svg, width=width, height=height)


def print_the_demo(folder: Path) -> None:
    """Make the demo's reports, one in Spanish, and a blank sheet, by the commands themselves."""
    judging = [f"{folder}/walks.csv", "--guideline", RULE, "--plantings", f"{folder}/plantings.csv"]
    fields = f"{folder}/fields.geojson"
    command("demo", "--calls-only", "--out", str(folder))
    command("report", *judging, "--fields", fields, "--out", f"{folder}/spanish",
            "--language", "es", "--day", "2026-07-11", "--advisor", ADVISOR)  # fmt: skip
    command("sheet", fields, "--field", "Playa 60", "--date", DAY.isoformat(),
            "--guideline", RULE, "--week", "2", "--out", f"{folder}/sheets")  # fmt: skip


def command(*words: str) -> None:
    """Give the command these words, and keep to ourselves what it prints unless it fails."""
    told = StringIO()
    try:
        with redirect_stdout(told), redirect_stderr(told):
            status = quarterwalk(list(words))
    except SystemExit as stopped:
        status = int(stopped.code or 0)
    if status:
        raise SetupFailed(f"quarterwalk {' '.join(words)} failed: {told.getvalue()}")


def show(pdf: Path, printed: Printed) -> None:
    """Make a picture of one page of a PDF."""
    if not pdf.exists():
        raise SetupFailed(f"{pdf.name} was not made; PDFs need the report extra.")
    page = ["-f", str(printed.page), "-l", str(printed.page)]
    done = subprocess.run(
        ["pdftoppm", "-gray", "-r", str(_DPI), *page, str(pdf)], check=True, capture_output=True
    )
    picture = png(done.stdout)
    if len(picture) > _HEAVIEST:
        raise SetupFailed(f"{printed.picture} has {len(picture)} bytes, more than {_HEAVIEST}.")
    (GALLERY / f"{printed.picture}.png").write_bytes(picture)


def png(grey_map: bytes) -> bytes:
    """Write a portable grey map as a PNG of 16 greys, a third as heavy as one of 256."""
    _, size, _, greys = grey_map.split(b"\n", 3)
    width, height = map(int, size.split())
    lines = bytearray()
    for start in range(0, width * height, width):
        steps = [(grey * 15 + 127) // 255 for grey in greys[start : start + width]]
        steps.append(0)  # a line of odd width is filled up
        pairs = zip(steps[: width + width % 2 : 2], steps[1::2], strict=False)
        lines += b"\0" + bytes(left << 4 | right for left, right in pairs)
    head = struct.pack(">IIBBBBB", width, height, 4, 0, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(bytes(lines), 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunk(kind, data) for kind, data in parts)


def chunk(kind: bytes, data: bytes) -> bytes:
    """Write one chunk of a PNG."""
    check = zlib.crc32(kind + data)
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)


if __name__ == "__main__":
    try:
        sys.exit(main())
    except SetupFailed as failed:
        say(str(failed))
        sys.exit(1)
