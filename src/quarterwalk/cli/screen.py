"""What is printed: colour on a terminal, plain elsewhere, wrapped to what fits."""

from __future__ import annotations

import json
import os
import shutil
import sys
import textwrap
from enum import StrEnum
from typing import TextIO

WIDEST, NARROWEST = 88, 40
"""Columns of text that read well. [characters]"""

_ROWS_WORTH_TELLING = 100_000
_MANY = 10


class Ink(StrEnum):
    """The inks of the screen; each verdict has its word too, so colour is never the only sign."""

    HEAD = "1"
    QUIET = "2"
    HOLD = "1;36"
    LOOK_SOONER = "1;33"
    TREAT = "1;35"
    NONE = "1"


def is_terminal(stream: TextIO) -> bool:
    """Tell whether a person looks at a stream as it is written.

    Parameters
    ----------
    stream : text file
        Such as standard output.

    Returns
    -------
    bool
        False also where the person has asked for no colour (``NO_COLOR``).
    """
    asked_plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return stream.isatty() and not asked_plain


def inked(text: str, ink: Ink) -> str:
    """Colour a text, if standard output is a terminal.

    Parameters
    ----------
    text : str
        The text.
    ink : Ink
        Its colour.

    Returns
    -------
    str
    """
    return f"\x1b[{ink.value}m{text}\x1b[0m" if is_terminal(sys.stdout) else text


def columns() -> int:
    """Give the width to write in.

    Returns
    -------
    int
        [characters]
    """
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((80, 24)).columns))


def say(text: str = "", *, indent: int = 0, hanging: int | None = None) -> None:
    """Print a paragraph, wrapped.

    Parameters
    ----------
    text : str
        The paragraph; empty for a blank line.
    indent : int
        Columns left free. [characters]
    hanging : int or None
        Columns left free from the second line on; None for the same. [characters]
    """
    later = indent if hanging is None else hanging
    lines = textwrap.wrap(
        text,
        columns(),
        initial_indent=" " * indent,
        subsequent_indent=" " * later,
        break_long_words=False,
        break_on_hyphens=False,
    )
    print("\n".join(lines))


def print_json(content: object) -> None:
    """Print JSON, in plain letters where the stream or the content forbids others.

    Parameters
    ----------
    content : object
        What `json.dumps` takes.
    """
    text = json.dumps(content, indent=2, ensure_ascii=False)
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeEncodeError:
        text = json.dumps(content, indent=2)
    print(text)


def tell_progress(rows: int) -> None:
    """Show how far a long reading is, on a terminal only.

    Parameters
    ----------
    rows : int
        Rows read so far. [count]
    """
    if rows >= _ROWS_WORTH_TELLING and sys.stderr.isatty():
        print(f"\r{rows:,} plants read …", end="", file=sys.stderr, flush=True)


def tell_done(done: int, of: int, what: str) -> None:
    """Show how many of many are done, on a terminal only.

    Parameters
    ----------
    done, of : int
        So far, and in all. [count]
    what : str
        Their noun, in the plural.
    """
    if of >= _MANY and sys.stderr.isatty():
        print(f"\r{done} of {of} {what} …", end="", file=sys.stderr, flush=True)


def end_progress() -> None:
    """Clear the line that showed progress."""
    if sys.stderr.isatty():
        print("\r\x1b[K", end="", file=sys.stderr, flush=True)
