"""The two commands of this repository: ./run demo and ./run test.

Both make what they need first. Only the standard library is used here, because
this is what makes everything else.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence

from checks import failed_checks
from environment import ROOT, VENV, ensure
from packages import clean_environment, programs, python_of
from said import SetupFailed, say
from system import TEST_PARTS, bring, left_out

USAGE = """\
usage: ./run demo [--out DIR]     make the calls of the demo district and say where they are
       ./run test                 lint, format, types, import directions, then every test
       ./run test ARGS            only pytest, with these arguments: ./run test -k blasted

The first run makes an environment in .venv from locks/; later runs start at once.
Afterwards the command itself is there too: .venv/bin/quarterwalk --help
"""


def demo(words: Sequence[str]) -> int:
    """Run the demo, with the arguments it was given."""
    ensure("demo")
    return _call([str(programs(VENV) / "quarterwalk"), "demo", *words])


def test(words: Sequence[str]) -> int:
    """Run the checks and the tests; pytest's own count is the last line."""
    missing = bring(TEST_PARTS)
    ensure("test")
    for line in left_out(missing):
        say(line)
    os.chdir(ROOT)
    if not words:
        say("Checking the source.")
        failed = failed_checks(ROOT, VENV)
        if failed:
            say(f"The tests were not run. Failed first: {', '.join(failed)}.")
            return 1
        words = ("-n", "2", "--dist", "loadgroup")
    return _call([str(python_of(VENV)), "-m", "pytest", *words])


VERBS = {"demo": demo, "test": test}


def main(words: Sequence[str]) -> int:
    """Do what the first word says, and give the exit status."""
    if words and words[0] in ("-h", "--help", "help"):
        print(USAGE, end="")
        return 0
    if not words or words[0] not in VERBS:
        got = f'got "{words[0]}"' if words else "got none"
        say(f"./run must be told demo or test, {got}.\n\n{USAGE.rstrip()}")
        return 2
    try:
        return VERBS[words[0]](words[1:])
    except SetupFailed as failure:
        say(str(failure))
        return 1


def _call(command: Sequence[str]) -> int:
    environment = clean_environment()
    if os.name == "posix":
        # In place of this process, so that the terminal and its signals are the command's own.
        os.execve(command[0], list(command), environment)
    return subprocess.run(command, env=environment, check=False).returncode


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        say("Stopped. Run the same command again to go on.")
        sys.exit(130)
