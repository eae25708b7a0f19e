"""The page on boundaries says what is read, what is refused, and where the limits are."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from quarterwalk.errors import RefusedInput
from quarterwalk.field.mend import (
    LEAST_ACRES,
    LEAST_PIECE_ACRES,
    MOST_ACRES,
    MOST_CHANGE,
    MOST_MENDED_POINTS,
)
from quarterwalk.field.overlap import LEAST_OVERLAP, MOST_PAIRS
from quarterwalk.files import boundary_limits as limits
from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.drawn import SAID
from quarterwalk.files.drawn_fields import FARTHEST_GATE_M
from tests.contracts.source import ROOT

PAGE = (ROOT / "docs" / "boundaries.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```geojson fields(.*)\n((?s:.*?))^```$(?:\n\n```text\n((?s:.*?))```$)?",
                      PAGE, re.MULTILINE)  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "said"), EXAMPLES)
def test_examples_are_read_or_refused_as_the_page_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str, text: str, said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("fields.geojson").write_text(text, encoding="utf-8")
    if "refused" in kind:
        with pytest.raises(RefusedInput) as refused:
            read_fields("fields.geojson")
        assert str(refused.value) == said.strip()
    else:
        assert "\n".join(read_fields("fields.geojson").notices) == said.strip()


def test_every_kind_of_example_is_there() -> None:
    assert [kind.strip() for kind, _, _ in EXAMPLES] == ["", "notice", "refused"]


@pytest.mark.parametrize(
    ("what", "value"),
    [
        ("size of a file, and what a zip may unpack to", limits.megabytes(limits.MOST_BYTES)),
        ("features of a file, in all its layers", f"{limits.MOST_FIELDS:,}"),
        ("points of a field", f"{limits.MOST_POINTS_A_FIELD:,}"),
        ("points of a file", f"{limits.MOST_POINTS:,}"),
        ("parts and holes of a field", f"{limits.MOST_RINGS_A_FIELD}"),
        ("points of a boundary that has to be mended", f"{MOST_MENDED_POINTS:,}"),
        ("brackets or elements one inside the other", f"{limits.DEEPEST}"),
        ("brackets or elements of a file", f"{limits.MOST_ELEMENTS:,}"),
        ("files in a zip", f"{limits.MOST_MEMBERS}"),
        ("layers of a zip or GeoPackage", f"{limits.MOST_LAYERS}"),
        (
            "a packed file may unpack to, beyond its first megabyte",
            f"{limits.MOST_RATIO} times its size",
        ),
        ("a name", f"{limits.LONGEST_NAME} characters"),
        ("fields that are compared for overlap", f"{MOST_PAIRS:,} pairs of neighbours"),
    ],
)
def test_the_limits_on_the_page_are_those_that_are_kept(what: str, value: str) -> None:
    assert f"| {what} | {value} |" in PAGE


def test_the_other_numbers_on_the_page_are_those_that_are_kept() -> None:
    for text in (
        f"at most {FARTHEST_GATE_M:,} m from the field",
        f"changes by at most {MOST_CHANGE:.0%}".replace("%", " %"),
        f"overlap by more than {LEAST_OVERLAP:.0%} of the smaller".replace("%", " %"),
        f"pieces and holes under {LEAST_PIECE_ACRES:g} acres",
        f"of under {LEAST_ACRES:g} acres, or of over {MOST_ACRES:,}",
    ):
        assert text in PAGE


def test_every_property_that_is_read_is_told() -> None:
    assert all(f"`{name}`" in PAGE for name in SAID)
