"""The office as a command starts it: its settings, its tables, and the server."""

from __future__ import annotations

import os
import signal
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING

from quarterwalk.errors import MissingExtra, UsageError

if TYPE_CHECKING:
    from waitress.server import BaseWSGIServer

NEEDED = ("django", "allauth", "whitenoise", "waitress", "dj_database_url", "platformdirs", "segno")
"""Packages that come with the office."""

# Requests that are answered at once; a phone sends a batch in some tenths of a second.
_THREADS = 8


def office_is_here() -> bool:
    """Tell whether everything that the office needs is installed."""
    return all(find_spec(name) is not None for name in NEEDED)


def set_up(data: Path | None = None) -> None:
    """Make the office ready: its folder, its key, its tables.

    Parameters
    ----------
    data : Path or None
        The data folder; None takes the one that the environment names. [folder name]

    Raises
    ------
    MissingExtra
        If the office is not installed.
    UsageError
        If its settings are wrong, or its database can't be reached.
    """
    if not office_is_here():
        raise MissingExtra("office", "The office's pages")
    if data is not None:
        os.environ["QUARTERWALK_DATA"] = str(data)
    os.environ["DJANGO_SETTINGS_MODULE"] = "quarterwalk.office.settings"
    import django
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import call_command
    from django.db.utils import OperationalError

    from quarterwalk.office.environment import data_folder, make_secret

    try:
        data_folder().mkdir(parents=True, exist_ok=True)
        make_secret(data_folder())
        django.setup()
        call_command("migrate", verbosity=0, interactive=False)
        call_command("createcachetable", verbosity=0)
    except (ImproperlyConfigured, OperationalError) as error:
        raise UsageError(f"the office can't start: {error}") from error
    except OSError as error:
        raise UsageError(
            f"the data folder {data_folder()} can't be written ({error.strerror})."
            " Name another with --data."
        ) from error


def bound_server(host: str, port: int) -> BaseWSGIServer:
    """Make the server, bound to its port; it serves once it is run.

    Parameters
    ----------
    host : str
        Where it listens.
    port : int
        0 takes any that is free.

    Returns
    -------
    BaseWSGIServer

    Raises
    ------
    UsageError
        If the port is taken.
    """
    from waitress import create_server

    from quarterwalk.office.wsgi import application

    proxied = os.environ.get("QUARTERWALK_BEHIND_PROXY") == "1"
    trust = (
        {"trusted_proxy": "*", "trusted_proxy_headers": "x-forwarded-for x-forwarded-proto"}
        if proxied
        else {}
    )
    try:
        server: BaseWSGIServer = create_server(
            application,
            host=host,
            port=port,
            threads=_THREADS,
            ident=None,
            clear_untrusted_proxy_headers=True,
            **trust,
        )
    except (OSError, socket.gaierror) as error:
        raise UsageError(
            f"the office can't listen at {host}, port {port} ({error.strerror})."
            " Choose another with --port."
        ) from error
    return server


def run_until_stopped(server: BaseWSGIServer) -> None:
    """Serve until somebody stops the command.

    Parameters
    ----------
    server : BaseWSGIServer
        From `bound_server`.
    """

    def stop(_signal: int, _frame: object) -> None:
        raise KeyboardInterrupt

    signal.signal(signal.SIGTERM, stop)
    try:
        server.run()
    finally:
        server.close()


@contextmanager
def running(server: BaseWSGIServer) -> Iterator[None]:
    """Serve beside whatever is done inside.

    Parameters
    ----------
    server : BaseWSGIServer
        From `bound_server`.
    """
    Thread(target=server.run, daemon=True).start()
    try:
        yield
    finally:
        server.close()
