"""Commands to copy: how this program is started from here, and lines that a shell takes."""

from __future__ import annotations

import os
import shlex
import shutil
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from quarterwalk.cli.screen import columns


def program_words() -> list[str]:
    """Give the words that start this program from where the user stands.

    Returns
    -------
    list of str
        Its name where the shell finds it, else its path.
    """
    if shutil.which("quarterwalk"):
        return ["quarterwalk"]
    started = Path(sys.argv[0])
    if started.stem == "quarterwalk" and started.is_file():
        return [os.path.relpath(started)]
    return [*python_words(), "-m", "quarterwalk"]


def python_words() -> list[str]:
    """Give the words that start this program's own Python from where the user stands.

    Returns
    -------
    list of str
        Its path, from here where it lies below.
    """
    python = Path(sys.executable)
    # not resolved: the link in an environment's folder is what makes it that environment
    below = python.is_relative_to(Path.cwd())
    return [os.path.relpath(python) if below else sys.executable]


def command_lines(words: Sequence[str], *, indent: int = 0) -> Iterator[str]:
    """Write a command over as many lines as it needs, in the way a shell takes it.

    Parameters
    ----------
    words : sequence of str
        The words, as the program would get them.
    indent : int
        Columns left free; two more from the second line on. [characters]

    Yields
    ------
    str
    """
    line = " " * indent
    for part in _kept_together(words):
        if line.strip() and len(line) + len(part) + len(" \\") > columns():
            yield f"{line}\\"
            line = " " * (indent + 2)
        line += f"{part} "
    yield line.rstrip()


def _kept_together(words: Sequence[str]) -> Iterator[str]:
    """Give the words of a command, each option with its value."""
    option = ""
    for word in map(shlex.quote, words):
        if option or not word.startswith("--"):
            yield f"{option} {word}".lstrip()
            option = ""
        else:
            option = word
    if option:
        yield option
