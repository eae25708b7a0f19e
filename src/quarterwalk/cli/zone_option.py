"""The option that names a clock, and the zone it means. Nothing heavy is imported here."""

from __future__ import annotations

import argparse

TYPE_CHECKING = False

if TYPE_CHECKING:
    from datetime import tzinfo

WALK_CLOCK = (
    "clock of the field and of hourly tables, such as America/Chicago (default: this machine's);"
    " goes with --walk-on"
)
"""What ``--help`` says of it where a day's sun and heat are told."""

SHEET_CLOCK = "clock of the field, such as America/Chicago: tells when the sun stands overhead"
"""What ``--help`` says of it where a sheet is printed."""


def zone_option(parser: argparse.ArgumentParser, does: str) -> None:
    """Let a command ask by which clock times are told.

    Parameters
    ----------
    parser : argparse.ArgumentParser
        Of the command.
    does : str
        What the clock is for, as ``--help`` says it.
    """
    parser.add_argument("--zone", metavar="NAME", help=does)


def named_zone(name: str) -> tzinfo:
    """Give the time zone of a name.

    Parameters
    ----------
    name : str
        Such as ``America/Chicago``.

    Returns
    -------
    tzinfo

    Raises
    ------
    UsageError
        If there is no zone of that name.
    """
    from zoneinfo import ZoneInfo

    from quarterwalk.errors import UsageError

    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        raise UsageError(
            f'--zone must be the name of a time zone, such as America/Chicago, got "{name}".'
        ) from None
