"""The command line: ``quarterwalk``.

Commands are loaded when they are called, so that ``--help`` answers at once.
"""

from __future__ import annotations

import contextlib
import os
import sys
from importlib import import_module
from io import TextIOWrapper

from quarterwalk.cli.parser import make_parser

TYPE_CHECKING = False

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator, Sequence
    from typing import Any

    from quarterwalk.errors import QuarterwalkError, RefusedInput

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
    stopped = _Stopped()
    try:
        return _told(parser.prog, options, stopped)
    except KeyboardInterrupt:
        return _say_stopped()
    except Exception:
        if stopped.by_hand:
            # a library has made an error of its own out of the interrupt
            return _say_stopped()
        raise


def _told(program: str, options: argparse.Namespace, stopped: _Stopped) -> int:
    """Run a command, say what is wrong if anything is, and give the exit status."""
    from quarterwalk.errors import QuarterwalkError, RefusedInput, UsageError

    command = import_module(f"quarterwalk.cli.{options.command}_command")
    try:
        with stopped, _readers_may_leave():
            command.run(options)
    except UsageError as error:
        _say_wrong(program, options, error)
        return USAGE
    except RefusedInput as error:
        _print_refusal(error, as_json=getattr(options, "json", False))
        return REFUSED
    except QuarterwalkError as error:
        _say_wrong(program, options, error)
        return FAILED
    return DONE


@contextlib.contextmanager
def _readers_may_leave() -> Iterator[None]:
    """Go on where whoever read us has stopped, such as `head`: the rest has no reader."""
    try:
        yield
        sys.stdout.flush()
    except BrokenPipeError:
        for stream in (sys.stdout, sys.stderr):
            try:
                stream.flush()
            except BrokenPipeError:
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


class _Stopped:
    """Remembers whether somebody stopped the command, however the libraries tell it."""

    def __init__(self) -> None:
        self.by_hand = False
        self._before: Any = None

    def __enter__(self) -> None:
        import signal

        # only the main thread may, and only where nobody else has taken the signal
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            with contextlib.suppress(ValueError):
                self._before = signal.signal(signal.SIGINT, self._stop)

    def _stop(self, signum: int, frame: object) -> None:
        self.by_hand = True
        raise KeyboardInterrupt

    def __exit__(self, *failed: object) -> None:
        import signal

        if self._before is not None:
            signal.signal(signal.SIGINT, self._before)


def _say_stopped() -> int:
    with _readers_may_leave():
        print("stopped; nothing was half-written.", file=sys.stderr)
    return INTERRUPTED


def _say_wrong(program: str, options: argparse.Namespace, error: QuarterwalkError) -> None:
    with _readers_may_leave():
        print(f"{program} {options.command}: {error}", file=sys.stderr)


def _print_refusal(error: RefusedInput, *, as_json: bool) -> None:
    """Print every problem; shorter where a person looks on, and no script."""
    from quarterwalk.cli.refusal_told import refusal_lines
    from quarterwalk.cli.screen import print_json
    from quarterwalk.files.call_json import refusal_json

    brief = sys.stderr.isatty() and not as_json
    # each has a reader of its own: one that leaves takes nothing from the other
    with _readers_may_leave():
        print("\n".join(refusal_lines(error)) if brief else error, file=sys.stderr)
    with _readers_may_leave():
        if as_json:
            print_json(refusal_json(error))
