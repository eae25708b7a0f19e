"""The phone dresses the office's drawings by the same rules as the office, in sunlight colours."""

from __future__ import annotations

import re
from pathlib import Path

import quarterwalk.phone
from quarterwalk.picture.dress import style
from quarterwalk.picture.theme import Theme
from quarterwalk.picture.tokens import LIGHT

PHONE = Path(quarterwalk.phone.__file__).parent
RULE = re.compile(r"\.(qw-[a-z0-9-]+)\s*\{([^}]*)\}")
VARIABLE = re.compile(r"--qw-([a-z0-9-]+):\s*(#[0-9A-Fa-f]{6})")


def rules_of(css: str) -> dict[str, dict[str, str]]:
    """Give what each class of a drawing is dressed in, without regard to how it is spaced."""
    found: dict[str, dict[str, str]] = {}
    for name, body in RULE.findall(css):
        pairs = (part.split(":", 1) for part in body.split(";") if part.strip())
        found[name] = {key.strip(): re.sub(r"\s", "", value) for key, value in pairs}
    return found


def ours() -> str:
    return (PHONE / "drawings.css").read_text(encoding="utf-8")


def test_every_class_of_a_drawing_is_dressed_on_the_phone_as_in_the_office() -> None:
    theirs = rules_of(style(Theme.SCREEN))
    assert len(theirs) > 40
    assert rules_of(ours()) == theirs


def test_the_phone_has_a_colour_for_every_meaning() -> None:
    assert [name for name, _ in VARIABLE.findall(ours())] == list(LIGHT)


def test_a_colour_on_the_phone_is_no_paler_than_in_the_office() -> None:
    sun = dict(VARIABLE.findall(ours()))
    for name in ("ink", "second", "leaf", "hold", "near", "past", "rule", "hatch"):
        assert brightness(sun[name]) <= brightness(LIGHT[name]), name
    assert sun["paper"] == "#FFFFFF"


def brightness(colour: str) -> float:
    """Weigh red, green and blue as the eye does (ITU-R BT.709)."""
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_drawings_of_the_phone_use_only_classes_that_are_dressed() -> None:
    dressed = set(rules_of(ours()))
    used = {
        name
        for path in sorted(PHONE.glob("drawings/*.js"))
        for name in re.findall(r"qw-[a-z0-9-]+", path.read_text(encoding="utf-8"))
    }
    assert used
    assert used <= dressed
