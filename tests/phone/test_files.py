"""The phone page is its files: all of them listed, none too long, nothing written inline."""

from __future__ import annotations

import re

import pytest

from quarterwalk.phone import content_type, phone_files
from quarterwalk.phone.files import HERE
from quarterwalk.phone.listing import LISTING, listing

FILES = phone_files()
OWN_MODULES = [name for name in FILES if name.endswith(".js") and not name.startswith("vendor/")]
SENTENCES = {"words.js", "views/words.js"}  # tables of what is said, not code
MOST_LINES = 200
UNSAFE = re.compile(r"innerHTML|insertAdjacentHTML|unsafeHTML|\beval\(|new Function")
IMPORT = re.compile(r"""(?:from|import)\s+['"](\.[^'"]+)['"]""")


def test_the_worker_keeps_the_files_as_they_are() -> None:
    kept = (HERE / LISTING).read_text(encoding="utf-8")
    assert kept == listing(), "run: python -m quarterwalk.phone.listing"


def test_every_file_of_the_page_is_served_and_python_is_not() -> None:
    there = {p.relative_to(HERE).as_posix() for p in HERE.rglob("*") if p.is_file()}
    left_out = {name for name in there if name not in FILES and "__pycache__" not in name}
    assert left_out == {"__init__.py", "files.py", "listing.py", "vendor/VENDOR.toml"}
    assert {"index.html", "app.js", "sw.js", "manifest.webmanifest"} <= FILES.keys()


def test_each_file_is_served_as_what_it_is() -> None:
    assert content_type("app.js").startswith("text/javascript")
    assert content_type("manifest.webmanifest") == "application/manifest+json"
    with pytest.raises(KeyError):
        content_type("files.py")


def test_nothing_is_written_inline() -> None:
    page = (HERE / "index.html").read_text(encoding="utf-8")
    assert not re.search(r"<script(?![^>]*\ssrc=)", page)
    assert not re.search(r"<style|\sstyle=|\son\w+=", page)
    for name in OWN_MODULES:
        text = FILES[name].read_text(encoding="utf-8")
        assert not UNSAFE.search(text), name
        assert not re.search(r"<[a-z][^>`]*\sstyle=", text), name


@pytest.mark.parametrize("name", OWN_MODULES)
def test_a_module_can_be_read_at_one_sitting(name: str) -> None:
    lines = FILES[name].read_text(encoding="utf-8").count("\n")
    assert lines <= MOST_LINES or name in SENTENCES | {LISTING}


@pytest.mark.parametrize("name", OWN_MODULES)
def test_what_a_module_imports_is_there(name: str) -> None:
    text = FILES[name].read_text(encoding="utf-8")
    for told in IMPORT.findall(text):
        assert (FILES[name].parent / told).resolve().is_file(), f"{name} imports {told}"


def test_the_page_and_its_manifest_name_files_that_are_there() -> None:
    page = (HERE / "index.html").read_text(encoding="utf-8")
    manifest = (HERE / "manifest.webmanifest").read_text(encoding="utf-8")
    named = re.findall(r'(?:href|src)="([^"]+)"', page) + re.findall(r'"src": "([^"]+)"', manifest)
    assert named
    assert [name for name in named if name not in FILES] == []
