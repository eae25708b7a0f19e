"""The pictures of a report, in the sizes that its faces need."""

from __future__ import annotations

from quarterwalk.picture import (
    Theme,
    field_sketch,
    found_in,
    pinch,
    quarters_small,
    three_outcomes,
)
from quarterwalk.report.report import Report


def outcomes_picture(report: Report, theme: Theme, width: int, id: str) -> str:
    """Draw hold, look sooner and treat, with what was decided.

    Parameters
    ----------
    report : Report
        The report.
    theme : Theme
        Where it will be seen.
    width : int
        [px]
    id : str
        Begins every id inside.

    Returns
    -------
    str
        SVG.
    """
    return three_outcomes(
        report.verdict,
        theme=theme,
        width=width,
        id=id,
        language=report.language,
        provisional=report.call.provisional,
        why=report.call.reasons[0].code,
    )


def pinch_picture(report: Report, theme: Theme, width: int, id: str) -> str:
    """Draw what was counted against its lines.

    Parameters
    ----------
    report : Report
        The report.
    theme : Theme
        Where it will be seen.
    width : int
        [px]
    id : str
        Begins every id inside.

    Returns
    -------
    str
        SVG.
    """
    return pinch(
        report.reading,
        report.call,
        level=report.level,
        theme=theme,
        width=width,
        id=id,
        language=report.language,
    )


def where_picture(report: Report, theme: Theme, size: tuple[int, int], id: str) -> str:
    """Draw what was found in each quarter: on the field's shape, or in compass order.

    Parameters
    ----------
    report : Report
        The report.
    theme : Theme
        Where it will be seen.
    size : (int, int)
        Width and height. [px]
    id : str
        Begins every id inside.

    Returns
    -------
    str
        SVG.
    """
    if report.layout is None:
        return quarters_small(
            report.reading,
            report.call,
            theme=theme,
            width=size[0],
            id=id,
            language=report.language,
        )
    return field_sketch(
        report.layout,
        theme=theme,
        width=size[0],
        height=size[1],
        id=id,
        language=report.language,
        found=found_in(report.reading),
        way=False,
    )
