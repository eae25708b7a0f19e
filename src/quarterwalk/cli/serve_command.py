"""``quarterwalk serve``: the office, for people in a browser and for their phones."""

from __future__ import annotations

import argparse
from pathlib import Path

from quarterwalk.cli.office import bound_server, run_until_stopped, set_up
from quarterwalk.cli.screen import say
from quarterwalk.errors import UsageError

HIGHEST_PORT = 65_535


def run(options: argparse.Namespace) -> None:
    """Make the office ready and serve it until it is stopped."""
    if not 0 <= options.port <= HIGHEST_PORT:
        raise UsageError(f"--port must be from 0 to {HIGHEST_PORT}, got {options.port}.")
    set_up(Path(options.data) if options.data else None)
    from quarterwalk.office.environment import data_folder, database
    from quarterwalk.office.services.people import begin_link

    server = bound_server(options.host, options.port)
    where = f"http://{options.host}:{server.effective_port}"
    token = begin_link()
    if token is not None:
        say("Nobody can sign in yet. Open this to make the first account; it works once:")
        print(f"  {where}/begin/{token}")
        print()
    print(f"The office is at {where}/")
    kept = data_folder() if database()["ENGINE"].endswith("sqlite3") else "PostgreSQL"
    say(f"Its data: {kept}. Stop it with Ctrl-C.")
    run_until_stopped(server)
