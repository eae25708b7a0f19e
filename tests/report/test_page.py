"""The page needs nothing beside it, runs nothing, and is one document in one language."""

from __future__ import annotations

import base64
import hashlib
import re

import pytest

from quarterwalk.report import Linked, day_page, page
from tests.report.made_reports import laid, report, shown

PAGES = {
    "with the field's shape": lambda: page(report(layout=laid())),
    "without it": lambda: page(report()),
    "in Spanish": lambda: page(report(layout=laid(), language="es")),
    "of a day": lambda: day_page([Linked(report(), "a.html", "a.pdf")]),
}
every_page = pytest.mark.parametrize("html", [make() for make in PAGES.values()], ids=PAGES)


@every_page
def test_a_page_runs_nothing_and_loads_nothing(html):
    for tag, attributes in shown(html).elements:
        assert tag not in {"script", "link", "iframe", "img", "object", "form", "base"}
        assert "style" not in attributes
        assert "src" not in attributes
        assert not any(name.startswith("on") for name in attributes)
    loaded = re.findall(r"url\(([^)]{0,20})", html)
    assert loaded
    assert all(each.startswith("data:font/woff2;base64,"[:20]) for each in loaded)
    assert "@import" not in html


@every_page
def test_the_policy_admits_the_one_style_and_no_other(html):
    (style,) = re.findall(r"<style>(.*?)</style>", html, flags=re.DOTALL)
    known = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    attributes = [a for tag, a in shown(html).elements if tag == "meta"]
    (policy,) = [a["content"] for a in attributes if "http-equiv" in a]
    assert policy.startswith("default-src 'none';")
    assert f"style-src 'sha256-{known}'" in policy
    assert "unsafe" not in policy


@every_page
def test_a_page_has_one_title_and_no_id_twice(html):
    elements = shown(html).elements
    assert [tag for tag, _ in elements].count("h1") == 1
    ids = [attributes["id"] for _, attributes in elements if "id" in attributes]
    assert len(ids) == len(set(ids))


def test_a_page_says_its_language():
    assert page(report(language="es")).startswith('<!doctype html>\n<html lang="es">')


def test_without_a_boundary_there_is_no_sketch_and_no_acres():
    made = report()
    assert (made.acres, made.grower, made.found_note) == ("", "", "")
    assert "acres" not in " ".join(shown(page(made)).pieces)


def test_a_report_in_another_language_than_its_call_is_refused():
    english = report().call
    with pytest.raises(ValueError, match="language of its call"):
        report(made=english, language="es")
