"""Names that a phone can give by itself: devices, people, fields, entries and walks."""

from __future__ import annotations

import re
from dataclasses import dataclass

ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
"""Base 32 without i, l, o and u, which are misread on paper and over the phone."""

DEVICE_LENGTH = 12
PERSON_LENGTH = 8
FIELD_LENGTH = 8

HIGHEST_SEQ = 999_999_999
"""Largest number of an entry; nine digits fit a whole number of any database. [dimensionless]"""

_WALK = re.compile(rf"([{ALPHABET}]{{{DEVICE_LENGTH}}})-([1-9][0-9]{{0,8}})")


@dataclass(frozen=True, slots=True, order=True)
class Key:
    """Which entry: the device that wrote it, and its place among that device's entries."""

    device: str
    seq: int


def is_id(text: str, length: int) -> bool:
    """Say whether a text is an id of that length.

    Parameters
    ----------
    text : str
        What was given. [text]
    length : int
        `DEVICE_LENGTH`, `PERSON_LENGTH` or `FIELD_LENGTH`. [characters]

    Returns
    -------
    bool
        Whether it has that many characters, all of them of `ALPHABET`.
    """
    return len(text) == length and set(text) <= set(ALPHABET)


def walk_id(device: str, seq: int) -> str:
    """Name a walk after the entry that opened it.

    Parameters
    ----------
    device : str
        The device that opened it. [12 characters]
    seq : int
        The number of the entry that opened it. [from 1]

    Returns
    -------
    str
        Such as ``k3f9m2q8t5wz-397``.
    """
    return f"{device}-{seq}"


def opening_key(walk: str) -> Key | None:
    """Say which entry opened a walk.

    Parameters
    ----------
    walk : str
        The walk's id. [text]

    Returns
    -------
    Key or None
        None where the text is no walk's id.
    """
    found = _WALK.fullmatch(walk)
    return Key(found[1], int(found[2])) if found else None
