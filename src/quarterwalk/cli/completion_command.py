"""``quarterwalk completion``: a script that completes commands and options in a shell."""

from __future__ import annotations

import argparse

import shtab

from quarterwalk.cli.parser import make_parser


def run(options: argparse.Namespace) -> None:
    """Print the script for one shell."""
    print(shtab.complete(make_parser(), options.shell))
