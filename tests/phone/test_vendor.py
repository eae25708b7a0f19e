"""The code of others that the phone page carries is what was taken in, byte for byte."""

from __future__ import annotations

import tomllib
from hashlib import sha256
from typing import Any

import pytest

from tests.contracts.source import PACKAGE

VENDOR = PACKAGE / "phone" / "vendor"
FILES: list[dict[str, Any]] = tomllib.loads((VENDOR / "VENDOR.toml").read_text("utf-8"))["file"]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file["name"])
def test_a_file_of_others_is_unchanged_and_its_licence_is_here(file: dict[str, str]) -> None:
    bytes_ = (VENDOR / file["file"]).read_bytes()
    assert sha256(bytes_).hexdigest() == file["sha256"]
    assert b"sourceMappingURL" not in bytes_
    assert "copyright" in (VENDOR / file["licence_file"]).read_text("utf-8").lower()


def test_every_file_of_others_is_told_of() -> None:
    told = {file["file"] for file in FILES} | {file["licence_file"] for file in FILES}
    assert told | {"VENDOR.toml"} == {path.name for path in VENDOR.iterdir()}
    assert len(FILES) == 3
