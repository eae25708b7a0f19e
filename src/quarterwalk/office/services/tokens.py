"""Secrets that are given out once and kept as their SHA-256."""

from __future__ import annotations

import hashlib
import secrets

from quarterwalk.journal import ALPHABET

CODE_LENGTH = 8
"""Letters of a pairing code. [count]"""

# Letters that people read for others, and what they meant.
_MEANT = str.maketrans({"o": "0", "i": "1", "l": "1", "u": "v", " ": None, "-": None})


def new_token() -> str:
    """Make a token that nobody can guess.

    Returns
    -------
    str
        256 bits, fit for an address.
    """
    return secrets.token_urlsafe(32)


def new_code() -> str:
    """Make a code that a person reads off one screen and types on another.

    Returns
    -------
    str
        Such as ``7KQ4-M2XD``: 40 bits.
    """
    letters = "".join(secrets.choice(ALPHABET) for _ in range(CODE_LENGTH)).upper()
    return f"{letters[:4]}-{letters[4:]}"


def plain_code(typed: str) -> str:
    """Read a code as it was typed: any case, with or without spaces and hyphens.

    Parameters
    ----------
    typed : str
        The code.

    Returns
    -------
    str
    """
    return typed.strip().lower().translate(_MEANT)


def hashed(secret: str) -> str:
    """Give what is kept of a secret.

    Parameters
    ----------
    secret : str
        A token, or a plain code.

    Returns
    -------
    str
        SHA-256. [64 hex digits]
    """
    return hashlib.sha256(secret.encode(errors="surrogatepass")).hexdigest()
