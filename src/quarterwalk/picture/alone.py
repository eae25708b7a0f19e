"""A drawing as a file of its own."""

from __future__ import annotations


def on_paper(svg: str, *, width: int, height: int) -> str:
    """Give a drawing a size and white paper, for a file that no page surrounds.

    Parameters
    ----------
    svg : str
        A drawing under `Theme.PRINT`.
    width, height : int
        What it was drawn for. [px]

    Returns
    -------
    str
        SVG that looks the same by itself, on any ground.
    """
    opening, rest = svg.split(">", 1)
    sized = opening.replace("<svg ", f'<svg width="{width}" height="{height}" ', 1)
    return f'{sized}><rect width="100%" height="100%" fill="#FFFFFF"/>{rest}'
