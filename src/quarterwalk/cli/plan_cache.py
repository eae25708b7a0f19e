"""Stop plans by question or by hash: of the package, else of the user's cache, else made anew."""

from __future__ import annotations

import hashlib
import json
import re
import sys
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

from platformdirs import user_cache_path

from quarterwalk import __version__
from quarterwalk.call.figures import number
from quarterwalk.cli.screen import end_progress
from quarterwalk.files.whole_file import whole_file
from quarterwalk.plan import (
    Shelved,
    Wanted,
    figures_of,
    make_plan,
    shelved_for,
    shelved_from_json,
    shelved_json,
    shelved_named,
)

_HEX = re.compile(r"[0-9a-f]{8,64}")


def plan_cache_folder() -> Path:
    """Give the folder where plans made on this machine are kept.

    Returns
    -------
    Path
        In the user's own cache folder. [folder name]
    """
    return user_cache_path("quarterwalk") / "plans"


def plan_for(wanted: Wanted) -> Shelved:
    """Find a plan in the package or in the cache, or make it and keep it.

    Parameters
    ----------
    wanted : Wanted
        What it is to do.

    Returns
    -------
    Shelved
        The plan and its figures.
    """
    packaged = shelved_for(wanted.question, wanted.stopping, wanted.squares_on)
    for each in packaged:
        if each.plan.loops == wanted.loops:
            return each
    key = _key(wanted)
    for path in _kept(f"{key}-*.json"):
        found = _read(path)
        if found is not None and _answers(found, wanted):
            return found
    return _keep(_made(wanted), key)


def plan_named(name: str) -> Shelved | None:
    """Find a plan by its hash, in the package and among those made on this machine.

    Parameters
    ----------
    name : str
        The hash, or 8 or more of its first digits, as a walk has it.

    Returns
    -------
    Shelved or None
        None where there is none of that name.
    """
    digits = name.strip().lower()
    if not _HEX.fullmatch(digits):
        return None
    found = (_read(path) for path in _kept(f"*-{digits}*.json"))
    return shelved_named(digits) or next((each for each in found if each is not None), None)


def _key(wanted: Wanted) -> str:
    """Give the hash of all that a plan hangs on; another version of this program makes its own."""
    content = json.dumps([__version__, asdict(wanted)], sort_keys=True, default=str)
    return hashlib.sha256(content.encode()).hexdigest()


def _kept(pattern: str) -> Iterator[Path]:
    return iter(sorted(plan_cache_folder().glob(pattern)))


def _read(path: Path) -> Shelved | None:
    """Read a kept plan; None where the file is not whole, or not the plan of its name."""
    try:
        found = shelved_from_json(json.loads(path.read_text(encoding="utf-8")))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, ArithmeticError):
        return None
    rows = len(found.figures)
    whole = all(len(look.rows) == rows > 0 for look in found.plan.looks)
    return found if whole and path.stem.endswith(found.plan.hash) else None


def _answers(found: Shelved, wanted: Wanted) -> bool:
    plan = found.plan
    return (plan.question, plan.stopping, plan.squares_on, plan.loops) == (
        wanted.question, wanted.stopping, wanted.squares_on, wanted.loops,
    )  # fmt: skip


def _made(wanted: Wanted) -> Shelved:
    loops = "+".join(map(str, wanted.loops))
    line = number(wanted.question.line)
    print(
        f"No plan of the package has this rule with a line of {line} and loops of {loops}:"
        " one is worked out and kept. It may take a few minutes.",
        file=sys.stderr,
    )
    try:
        plan = make_plan(wanted, _tell)
        return Shelved(plan, figures_of(plan))
    finally:
        end_progress()


def _tell(done: int, of: int) -> None:
    if sys.stderr.isatty():
        print(f"\r{done} of {of} rows …", end="", file=sys.stderr, flush=True)


def _keep(made: Shelved, key: str) -> Shelved:
    """Keep a plan, and give it as it will be read again: figures rounded."""
    content = shelved_json(made)
    path = plan_cache_folder() / f"{key}-{made.plan.hash}.json"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with whole_file(path) as file:
            file.write(json.dumps(content).encode())
    except OSError as error:
        why = error.strerror or str(error)
        print(f"The plan is not kept for next time: {path.parent}: {why}.", file=sys.stderr)
    return shelved_from_json(json.loads(json.dumps(content)))
