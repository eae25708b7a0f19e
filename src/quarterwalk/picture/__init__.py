"""Every drawing, as SVG text: the field, the pinch, the three outcomes and their marks.

A drawing is one ``<svg>`` element with a title and a description for those who hear it,
classes in place of styles, and real text. Under `Theme.SCREEN` the page around it carries
`style(Theme.SCREEN)`; under `Theme.PRINT` the drawing carries its own rules.
"""

from quarterwalk.picture.alone import on_paper
from quarterwalk.picture.dress import style
from quarterwalk.picture.found import Found, found_in
from quarterwalk.picture.outcomes import three_outcomes, verdict_mark
from quarterwalk.picture.pinch import pinch
from quarterwalk.picture.quarter import quarter_mark
from quarterwalk.picture.quarters import quarters_small
from quarterwalk.picture.sketch import field_sketch
from quarterwalk.picture.theme import Theme

__all__ = [
    "Found",
    "Theme",
    "field_sketch",
    "found_in",
    "on_paper",
    "pinch",
    "quarter_mark",
    "quarters_small",
    "style",
    "three_outcomes",
    "verdict_mark",
]
