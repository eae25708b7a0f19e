"""The field's sketch on the card, sized for the narrowest phone."""

from __future__ import annotations

from typing import Any

from quarterwalk.field import Layout
from quarterwalk.picture import Theme, field_sketch

# A phone page is 360 px wide or more and keeps 16 px free on either side. [px]
WIDTH, HEIGHT = 328, 300


def sketch_of(layout: Layout, language: str) -> dict[str, Any]:
    """Draw the field for the phone; each stop's disc carries its number in ``data-stop``.

    Parameters
    ----------
    layout : Layout
        The field laid out for the walk.
    language : str
        Of its words.

    Returns
    -------
    dict
        The drawing and its size, ready for JSON.
    """
    svg = field_sketch(
        layout,
        theme=Theme.SCREEN,
        width=WIDTH,
        height=HEIGHT,
        id="sketch",
        language=language,
    )
    return {"svg": svg, "width": WIDTH, "height": HEIGHT}
