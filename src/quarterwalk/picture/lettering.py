"""How much room words take, so that labels do not run into each other."""

from __future__ import annotations

# Widths of letters in heavy type, by the hundredth of the type size, rounded up; measured
# on the typeface of the pages. Whatever is not named takes the width of a broad letter.
_WIDTHS = {
    26: "' ,.:;j|l!`ií·",
    37: '()-[]frt{}I"_’',
    47: "/1\\",
    52: "*cszy–",
    58: "79<>?FJLaehknuvxáéñúü~",
    62: "$+23458=ESTZ^bdgopqóR",
    66: "06BCKPVY",
    72: "&ADGHNUX",
    77: "#OQw",
    84: "@…M",
    96: "Wm%",
}
_BROAD = 0.75
_WIDTH = {letter: width / 100 for width, letters in _WIDTHS.items() for letter in letters}

CUT = "…"
"""Stands where words were cut off."""


def room(text: str, size: float) -> float:
    """Give the width that a line of words takes at most.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Of the type. [px]

    Returns
    -------
    float
        [px]
    """
    return size * sum(_WIDTH.get(letter, _BROAD) for letter in text)


def cut(text: str, most: int) -> str:
    """Shorten words that are too long, and show that they were.

    Parameters
    ----------
    text : str
        The words.
    most : int
        Letters that may stay, with the mark of the cut. [count]

    Returns
    -------
    str
        On one line.
    """
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 1].rstrip() + CUT


def in_lines(text: str, size: float, width: float) -> list[str]:
    """Break words into lines between words, each as full as the width allows.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Of the type. [px]
    width : float
        Room for a line; one long word may still run over. [px]

    Returns
    -------
    list of str
        At least one line where there is a word.
    """
    lines: list[str] = []
    for word in text.split():
        if lines and room(f"{lines[-1]} {word}", size) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
