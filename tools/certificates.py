"""Which certificates to trust, where the user has told pip nothing of it.

Older pips trust only the list they carry. A user behind a company's gate has
its certificate in the system's list, so pip is pointed there.
"""

from __future__ import annotations

import ssl
from collections.abc import Mapping
from pathlib import Path

TOLD_BY = ("PIP_CERT", "REQUESTS_CA_BUNDLE", "CURL_CA_BUNDLE")


def pip_certificates(pip: Mapping[str, str], own: Mapping[str, str]) -> dict[str, str]:
    """Give the variable that makes pip trust what the system trusts, or nothing.

    Parameters
    ----------
    pip : mapping
        The user's pip settings by name.
    own : mapping
        The user's environment.
    """
    if pip.get("cert") or any(own.get(name) for name in TOLD_BY):
        return {}
    told = own.get("SSL_CERT_FILE")
    trusted = Path(told) if told else _list_of_system()
    return {"PIP_CERT": str(trusted)} if trusted and trusted.exists() else {}


def _list_of_system() -> Path | None:
    places = ssl.get_default_verify_paths()
    if places.cafile:
        return Path(places.cafile)
    # A folder counts only when it is indexed by hash, which is how OpenSSL reads it.
    if places.capath and any(Path(places.capath).glob("*.0")):
        return Path(places.capath)
    return None
