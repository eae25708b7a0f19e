"""Public ids: short, told apart when read aloud, never reused."""

from __future__ import annotations

import secrets

from quarterwalk.journal import ALPHABET, DEVICE_LENGTH, PERSON_LENGTH


def _letters(count: int) -> str:
    return "".join(secrets.choice(ALPHABET) for _ in range(count))


def new_id() -> str:
    """Make a public id for a person, a field or a district.

    Returns
    -------
    str
        Eight letters and digits, 40 bits of chance.
    """
    return _letters(PERSON_LENGTH)


def new_device_id() -> str:
    """Make an id for a device that writes journal entries.

    Returns
    -------
    str
        Twelve letters and digits, 60 bits of chance.
    """
    return _letters(DEVICE_LENGTH)
