"""Which addresses a request may be sent to, and what of an address may be repeated."""

from __future__ import annotations

from ipaddress import ip_address

from urllib3.exceptions import LocationParseError
from urllib3.util import Url, parse_url

from quarterwalk.files.weather_service_errors import UnsafeAddress


def checked_address(address: str) -> str:
    """Give an address back if a request may be sent there.

    The parser is the one that the request goes through, so that both mean the same host.

    Parameters
    ----------
    address : str
        Scheme, host and path.

    Returns
    -------
    str

    Raises
    ------
    UnsafeAddress
        If others could read what is sent, or the address carries more than a place to ask.
    """
    try:
        parts = parse_url(address)
    except LocationParseError:
        raise UnsafeAddress(address, "be an address") from None
    if not parts.host or not address.isprintable() or " " in address:
        raise UnsafeAddress(address, "name a host")
    if parts.auth or parts.query is not None or parts.fragment is not None:
        told = without_query(address)
        raise UnsafeAddress(told, "have no name, password, question mark or # in it")
    if parts.scheme != "https" and not (parts.scheme == "http" and is_own_machine(parts.host)):
        raise UnsafeAddress(address, "begin with https://, unless it is this machine's own")
    return address


def is_own_machine(host: str) -> bool:
    """Tell whether what is sent to a host stays on this machine.

    Parameters
    ----------
    host : str
        A name, or a number as it stands in an address.

    Returns
    -------
    bool
    """
    if host.casefold() == "localhost":
        return True
    try:
        return ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def without_query(address: str) -> str:
    """Give an address without what is asked of it, and without names and passwords.

    Parameters
    ----------
    address : str
        Any; what can't be parsed is not repeated.

    Returns
    -------
    str
    """
    try:
        parts = parse_url(address)
    except LocationParseError:
        return "an address that can't be read"
    return Url(parts.scheme, None, parts.host, parts.port, parts.path).url
