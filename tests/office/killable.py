"""An office in a process of its own, whose server may be killed at any moment.

The server is forked from a parent that holds the listening socket, so that the next one is
there at once. Commands come line by line on standard input, answers go out as JSON.
"""

from __future__ import annotations

import json
import os
import signal
import socket
import sys
from collections.abc import Callable
from datetime import datetime
from typing import Any, NoReturn

from django.db import connections
from django.test import Client
from waitress import create_server

from quarterwalk.cli.office import set_up
from quarterwalk.journal import read_entry
from tests.office.ends import Cast
from tests.office.histories import make_history


def main() -> None:
    """Set the office up once, then serve, check and serve again as told."""
    set_up()
    from tests.office.offices import open_office  # noqa: PLC0415 - only once Django is set up

    office = open_office(datetime.fromisoformat(sys.argv[1]))
    _warm(office.cast)
    connections.close_all()
    listening = socket.create_server(("127.0.0.1", 0), backlog=64)
    _say({"port": listening.getsockname()[1], "tokens": office.tokens})
    child = 0
    for command in sys.stdin:
        if command.strip() == "check":
            os.waitpid(_forked(_check), 0)
            continue
        if child:
            os.waitpid(child, 0)
        child = _forked(lambda: _serve(listening))
        _say(child)
    if child:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


def _warm(cast: Cast) -> None:
    """Load what the first request would load, so that each server after it is quick."""
    assert Client(HTTP_HOST="localhost").post("/sync/entries").status_code == 401
    for said in make_history(0, cast, walks=20).said:
        read_entry(said.line)


def _forked(work: Callable[[], object]) -> int:
    pid = os.fork()
    if not pid:
        _do_and_leave(work)
    return pid


def _do_and_leave(work: Callable[[], object]) -> NoReturn:
    try:
        work()
    finally:
        sys.stdout.flush()
        os._exit(0)


def _serve(listening: socket.socket) -> None:
    from quarterwalk.office.wsgi import application  # noqa: PLC0415 - only once it is set up

    create_server(application, sockets=[listening], threads=8).run()


def _check() -> None:
    from quarterwalk.office.services.projections import rebuild  # noqa: PLC0415 - as above

    _say(sorted(rebuild(check=True).differing))


def _say(told: Any) -> None:
    print(json.dumps(told), flush=True)
