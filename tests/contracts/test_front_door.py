"""What `from quarterwalk import ...` gives is chosen, sorted, importable and documented."""

from __future__ import annotations

import re
import types

import quarterwalk
from tests.contracts.source import ROOT

REFERENCE = ROOT / "docs" / "api.md"
HEADING = re.compile(r"^#{2,4} `(?:[a-z_]+\.)*([A-Za-z_]+)", re.MULTILINE)


def test_each_name_of_the_front_door_is_importable() -> None:
    assert quarterwalk.__all__
    missing = [name for name in quarterwalk.__all__ if not hasattr(quarterwalk, name)]
    assert not missing


def test_the_front_door_is_sorted_and_says_nothing_twice() -> None:
    assert list(quarterwalk.__all__) == sorted(set(quarterwalk.__all__))


def test_nothing_comes_through_the_front_door_unasked() -> None:
    public = {
        name
        for name, what in vars(quarterwalk).items()
        if not name.startswith("_")
        and not isinstance(what, types.ModuleType)
        and name not in ("annotations", "TYPE_CHECKING")
    }
    assert public <= set(quarterwalk.__all__)


def test_the_reference_page_lists_what_the_front_door_gives() -> None:
    listed = set(HEADING.findall(REFERENCE.read_text(encoding="utf-8")))
    given = {name for name in quarterwalk.__all__ if not name.startswith("__")}
    assert listed == given, "docs/api.md needs one heading for each, such as: ## `take_reading`"
