"""The two dresses of a drawing: a page on a screen, and ink on paper."""

from __future__ import annotations

from enum import Enum


class Theme(Enum):
    """Where a drawing will be seen."""

    SCREEN = "screen"
    """Inside a page that carries `style(Theme.SCREEN)`; light, dark or printed."""
    PRINT = "print"
    """On paper, black on white; the drawing brings its own rules."""
