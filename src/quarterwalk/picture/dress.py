"""The rules that dress a drawing: each class names what a mark is, not how it looks."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from quarterwalk.picture.theme import Theme
from quarterwalk.picture.tokens import DARK, LIGHT, PRINT

# A word in braces is a colour by its meaning, a word in brackets a fill of that colour.
_RULES = {
    # words
    "words": '[ink];font-family:"Atkinson Hyperlegible Next",system-ui,sans-serif;'
    "font-weight:500;font-variant-numeric:tabular-nums",
    "bold": "font-weight:700",
    "quiet": "[second]",
    "on-ink": "[paper]",
    "middle": "text-anchor:middle",
    "end": "text-anchor:end",
    "halo": "paint-order:stroke;stroke:{paper};stroke-width:4;stroke-linejoin:round",
    # lines, posts and flags
    "ink": "[ink]",
    "blank": "[paper]",
    "axis": "fill:none;stroke:{rule};stroke-width:1.5",
    "unseen": "fill:none;stroke:{rule};stroke-width:1.5;stroke-dasharray:3 4",
    "hatch": "fill:none;stroke:{hatch};stroke-width:1.2",
    # leaves
    "aura": "fill:{paper};stroke:{paper};stroke-width:4;stroke-linejoin:round",
    "leaf": "[leaf]",
    "past": "[past]",
    "rib": "fill:none;stroke:{paper};stroke-width:1.6",
    "reading": "fill:{paper};stroke:{ink};stroke-width:3",
    "hollow": "fill:{paper};stroke:{ink};stroke-width:2;stroke-dasharray:4 3",
    "short-of": "fill:{paper};stroke:{ink};stroke-width:2.5",
    "beyond": "fill:{past};stroke:{paper};stroke-width:1.5",
    # outcomes
    "hold": "[hold]",
    "near": "[near]",
    "treat": "[past]",
    "hold-line": "fill:none;stroke:{hold};stroke-width:2.5",
    "near-line": "fill:none;stroke:{near};stroke-width:2.5",
    "paper-line": "fill:none;stroke:{paper};stroke-width:2.5",
    "frame": "fill:none;stroke:{frame};stroke-width:2.5",
    "square": "fill:none;stroke:{ink};stroke-width:2",
    "for-now": "fill:none;stroke:{ink};stroke-width:4;stroke-dasharray:10 6",
    # the field
    "ground": "[paper]",
    "ground-1": "[tint-1]",
    "ground-2": "[tint-2]",
    "ground-3": "[tint-3]",
    "ground-4": "[tint-4]",
    "measure": "fill:none;stroke:{ink};stroke-width:2",
    "even": "fill-rule:evenodd",
    "gate": "fill:{ink};stroke:{paper};stroke-width:2.5",
    "border": "fill:none;stroke:{ink};stroke-width:1.5;stroke-linejoin:round",
    "edge": "fill:none;stroke:{ink};stroke-width:3;stroke-linejoin:round",
    "texture": "fill:none;stroke:{rule};stroke-width:1.4",
    "dots": "fill:none;stroke:{rule};stroke-width:2.6;stroke-linecap:round",
    "clearing": "fill:none;stroke:{paper};stroke-width:7;stroke-linejoin:round",
    "loop-1": "fill:none;stroke:{ink};stroke-width:2.6;stroke-linejoin:round",
    "loop-2": "fill:none;stroke:{ink};stroke-width:2;stroke-linejoin:round;stroke-dasharray:4 4",
    "stop-1": "fill:{ink};stroke:{paper};stroke-width:2",
    "stop-2": "fill:{paper};stroke:{ink};stroke-width:2.2",
    "rim": "fill:{paper};stroke:{paper};stroke-width:4",
    # the season
    "hair": "fill:none;stroke:{tint-2};stroke-width:1",
    "usual": "[tint-2]",
    "usual-edge": "fill:none;stroke:{rule};stroke-width:1",
    "usual-line": "fill:none;stroke:{tint-4};stroke-width:1.2",
    "ahead": "[tint-3]",
    "ahead-edge": "fill:none;stroke:{second};stroke-width:1.2;stroke-dasharray:5 4",
    "ahead-line": "fill:none;stroke:{second};stroke-width:1.2",
    "heat-rim": "fill:none;stroke:{paper};stroke-width:6;stroke-linejoin:round",
    "heat": "fill:none;stroke:{ink};stroke-width:3;stroke-linejoin:round",
    "today": "fill:none;stroke:{ink};stroke-width:1.2",
    "plant": "[plant]",
    "plant-open": "fill:{paper};stroke:{plant};stroke-width:2",
    "next": "fill:{paper};stroke:{ink};stroke-width:1.8;stroke-dasharray:4 3",
}


def style(theme: Theme) -> str:
    """Give the rules that dress every drawing.

    Parameters
    ----------
    theme : Theme
        Where they will be seen.

    Returns
    -------
    str
        CSS. For a screen the colours are variables with a value for day, for night and
        for paper, and a page carries it once; for paper they are plain, and every
        drawing carries its own.
    """
    return _on_paper() if theme is Theme.PRINT else _on_screen()


@cache
def _on_paper() -> str:
    return _rules(PRINT)


@cache
def _on_screen() -> str:
    night = f"@media (prefers-color-scheme:dark){{{_variables(DARK)}}}"
    paper = f"@media print{{{_variables(PRINT)}}}"
    named = {name: f"var(--qw-{name})" for name in LIGHT}
    return _variables(LIGHT) + night + paper + _rules(named)


def _variables(colours: Mapping[str, str]) -> str:
    return ":root{" + "".join(f"--qw-{name}:{value};" for name, value in colours.items()) + "}"


def _rules(colours: Mapping[str, str]) -> str:
    return "".join(f".qw-{name}{{{_told(rule, colours)}}}" for name, rule in _RULES.items())


def _told(rule: str, colours: Mapping[str, str]) -> str:
    for name, value in colours.items():
        rule = rule.replace(f"[{name}]", f"fill:{value}").replace(f"{{{name}}}", value)
    return rule
