"""One drawing as SVG text: elements with escaped words, a title and a description."""

from __future__ import annotations

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from quarterwalk.picture.dress import style
from quarterwalk.picture.theme import Theme


@dataclass(frozen=True, slots=True)
class Telling:
    """What a drawing says to someone who hears it: a name, and a sentence or two."""

    title: str
    desc: str = ""


def figure(value: float) -> str:
    """Write a coordinate to a hundredth of a unit, without idle zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, inside: str = "", /, **attributes: str | float | None) -> str:
    """Write one element; `cls` stands for class, an underscore for a hyphen, None for none."""
    parts = [name]
    for key, value in attributes.items():
        if value is None:
            continue
        said = value if isinstance(value, str) else figure(value)
        parts.append(f"{'class' if key == 'cls' else key.replace('_', '-')}={quoteattr(said)}")
    head = " ".join(parts)
    return f"<{head}>{inside}</{name}>" if inside else f"<{head}/>"


def words(x: float, y: float, text: str, cls: str, size: float) -> str:
    """Write a line of words; the class says its weight, colour and which end stands at x."""
    return element("text", clean(text), x=x, y=y, cls=cls, font_size=size)


def clean(text: str) -> str:
    """Escape words for XML, and drop the characters that XML does not know."""
    allowed = (c for c in text if c in "\t\n" or " " <= c <= "\ud7ff" or c >= "\ue000")
    return escape("".join(c for c in allowed if c not in "\ufffe\uffff"))


def drawing(inside: str, told: Telling, *, size: tuple[float, float], theme: Theme, id: str) -> str:
    """Put a drawing together.

    Parameters
    ----------
    inside : str
        Its elements.
    told : Telling
        What it says to someone who hears it.
    size : (float, float)
        Width and height. [px]
    theme : Theme
        Where it will be seen.
    id : str
        Begins every id inside, so that two drawings on a page keep theirs apart.

    Returns
    -------
    str
        One ``<svg>`` element.
    """
    names = f"{id}-title {id}-desc" if told.desc else f"{id}-title"
    head = element("title", clean(told.title), id=f"{id}-title")
    if told.desc:
        head += element("desc", clean(told.desc), id=f"{id}-desc")
    if theme is Theme.PRINT:
        head += element("style", style(theme))
    box = f"0 0 {figure(size[0])} {figure(size[1])}"
    return element(
        "svg",
        head + inside,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=box,
        cls="qw-drawing",
        role="img",
        aria_labelledby=names,
    )
