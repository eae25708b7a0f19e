"""The command line: ``quarterwalk``.

Commands are loaded when they are called, so that ``--help`` answers at once.
"""

from __future__ import annotations

import sys
from importlib import import_module
from io import TextIOWrapper

from quarterwalk.cli.parser import make_parser

TYPE_CHECKING = False

if TYPE_CHECKING:
    from collections.abc import Sequence

    from quarterwalk.errors import RefusedInput

__all__ = ["main"]

DONE, FAILED, USAGE, REFUSED, INTERRUPTED = 0, 1, 2, 3, 130
"""Exit statuses."""


def main(words: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    words : sequence of str or None
        The words after ``quarterwalk``; None takes them from the command line.

    Returns
    -------
    int
        0 done, 2 the command line is wrong, 3 an input was refused.
    """
    # a name in letters that the screen does not know is shown with marks in their place
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    parser = make_parser()
    options = parser.parse_args(words)
    import os

    from quarterwalk.errors import QuarterwalkError, RefusedInput, UsageError

    command = import_module(f"quarterwalk.cli.{options.command}_command")
    try:
        command.run(options)
        sys.stdout.flush()
    except UsageError as error:
        print(f"{parser.prog} {options.command}: {error}", file=sys.stderr)
        return USAGE
    except RefusedInput as error:
        print(error, file=sys.stderr)
        if getattr(options, "json", False):
            _print_refusal(error)
        return REFUSED
    except QuarterwalkError as error:
        print(f"{parser.prog} {options.command}: {error}", file=sys.stderr)
        return FAILED
    except BrokenPipeError:
        # whoever read us has stopped, such as `head`; the rest of the output has no reader
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except KeyboardInterrupt:
        print("stopped; nothing was half-written.", file=sys.stderr)
        return INTERRUPTED
    return DONE


def _print_refusal(error: RefusedInput) -> None:
    from quarterwalk.cli.screen import print_json
    from quarterwalk.files.call_json import refusal_json

    print_json(refusal_json(error))
