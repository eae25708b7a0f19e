"""The user's own pip settings, said in uv's words.

pip reads its settings itself; uv reads none of pip's. Without this a user
behind a mirror or a company certificate could install with one and not with
the other. Whatever the user set for uv by name is left alone.
"""

from __future__ import annotations

import ast
from collections.abc import Mapping

SECTIONS = ("global", "install", ":env:")
"""Where pip looks for a setting; the later wins."""

PLAIN = {
    "cert": "SSL_CERT_FILE",
    "client-cert": "SSL_CLIENT_CERT",
    "proxy": "ALL_PROXY",
    "timeout": "UV_HTTP_TIMEOUT",
    "keyring-provider": "UV_KEYRING_PROVIDER",
    "trusted-host": "UV_INSECURE_HOST",
}
"""Settings that have the same meaning, and the same form, in both."""

INDEX_NAMES = ("UV_DEFAULT_INDEX", "UV_INDEX", "UV_INDEX_URL", "UV_EXTRA_INDEX_URL", "UV_NO_INDEX")


def pip_settings(listing: str) -> dict[str, str]:
    """Read what ``pip config list`` prints into one value for each setting."""
    found: dict[tuple[str, str], str] = {}
    for line in listing.splitlines():
        key, mark, quoted = line.partition("=")
        section, dot, name = key.partition(".")
        if mark and dot and section in SECTIONS:
            found[section, name.replace("default-timeout", "timeout")] = _unquoted(quoted)
    return {
        name: value
        for section in SECTIONS
        for (where, name), value in found.items()
        if where == section
    }


def uv_environment(pip: Mapping[str, str], own: Mapping[str, str]) -> dict[str, str]:
    """Give the variables that make uv fetch from where pip would.

    Parameters
    ----------
    pip : mapping
        Settings by name, as `pip_settings` gives them.
    own : mapping
        The user's environment; what it says to uv already is not touched.
    """
    wanted = {variable: pip[name] for name, variable in PLAIN.items() if pip.get(name)}
    if not any(own.get(name) for name in INDEX_NAMES):
        wanted |= _index_variables(pip)
    if pip.get("find-links"):
        wanted["UV_FIND_LINKS"] = ",".join(pip["find-links"].split())
    if not any(own.get(name) for name in ("SSL_CERT_FILE", "SSL_CERT_DIR")) and not pip.get("cert"):
        # pip trusts what the system trusts; uv does so only when told.
        wanted["UV_SYSTEM_CERTS"] = "1"
    return {name: value for name, value in wanted.items() if not own.get(name)}


def _index_variables(pip: Mapping[str, str]) -> dict[str, str]:
    if pip.get("no-index", "").lower() in ("1", "true", "yes", "on"):
        return {"UV_NO_INDEX": "1"}
    variables = {}
    if pip.get("index-url"):
        variables["UV_DEFAULT_INDEX"] = pip["index-url"]
    if pip.get("extra-index-url"):
        variables["UV_INDEX"] = " ".join(pip["extra-index-url"].split())
        # As pip does: look in all of them. The lock's hashes decide what may be installed.
        variables["UV_INDEX_STRATEGY"] = "unsafe-best-match"
    return variables


def _unquoted(text: str) -> str:
    try:
        return str(ast.literal_eval(text))
    except (SyntaxError, ValueError):
        return text
