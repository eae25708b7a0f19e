"""Before any test: an office of the tests' own, never the data of whoever runs them.

It stands here, not in the settings' place in pyproject.toml, since it must come before the
settings are read, and since the core is also tested where no web framework is installed.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from importlib.util import find_spec

DATABASE = "QUARTERWALK_TEST_DATABASE_URL"
"""Names the PostgreSQL database beside which the tests make theirs; without it, SQLite."""

TOLD = ("DATABASE_URL", *(f"QUARTERWALK_{name}" for name in (
    "DATA", "ORIGIN", "BEHIND_PROXY", "SECRET", "SHIFT_MS",
)))  # fmt: skip
"""What the environment may say of an office."""


def own_surroundings() -> None:
    """Take away what the environment says of an office, and give the tests' own folder."""
    for name in TOLD:
        os.environ.pop(name, None)
    folder = tempfile.mkdtemp(prefix="quarterwalk-tests-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    os.environ["QUARTERWALK_DATA"] = folder
    if os.environ.get(DATABASE):
        os.environ["DATABASE_URL"] = os.environ[DATABASE]


own_surroundings()
if find_spec("django") is not None and find_spec("pytest_django") is not None:
    import django

    # named for this moment only: whoever finds it in the environment reads the settings first,
    # and a test run that this one starts must come by here too
    os.environ["DJANGO_SETTINGS_MODULE"] = "quarterwalk.office.settings"
    django.setup()
    del os.environ["DJANGO_SETTINGS_MODULE"]
