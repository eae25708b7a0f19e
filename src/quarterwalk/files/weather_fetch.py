"""The bytes behind an address, up to a limit of size and of time, asked for with patience."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from http import HTTPStatus
from queue import Empty, Queue
from threading import Thread

import urllib3
from urllib3.exceptions import (
    HTTPError,
    NameResolutionError,
    NewConnectionError,
    SSLError,
    TimeoutError,
)

from quarterwalk.errors import shown
from quarterwalk.files.service_address import without_query
from quarterwalk.files.weather_answer import reason_told
from quarterwalk.files.weather_service_errors import (
    AnswerNotRead,
    RequestRefused,
    ServiceNotReached,
)

MOST_BYTES = 4_000_000
"""Eighty years of days take about 1 MB; a rule of this project. [bytes]"""

# What is read at once. [bytes]
_CHUNK = 65_536
# The first wait where the service names none; each further one is twice as long. A rule of
# this project. [s]
_FIRST_WAIT = 1.0
# They tell the service which program asks, and for what; nothing of the user.
_HEADERS = {"User-Agent": "quarterwalk", "Accept": "application/json"}


@dataclass(frozen=True, slots=True)
class Patience:
    """How long an answer is waited for, and how often it is asked for again.

    Parameters
    ----------
    silence_s : float
        The longest time to connect, and between two pieces of an answer. [s]
    answer_s : float
        The longest time for a whole try: name, connection, head and answer. [s]
    tries : int
        How often one request is sent at most. [count]
    longest_wait_s : float
        A service that asks for more time between two tries is given up. [s]
    sleep : callable
        Waits so many seconds; tests give another one.
    """

    silence_s: float = 15.0
    answer_s: float = 60.0
    tries: int = 3
    longest_wait_s: float = 60.0
    sleep: Callable[[float], None] = time.sleep


@dataclass(frozen=True, slots=True)
class _Failed:
    """A try without an answer, and the wait that the service asked for. [s]"""

    what: str
    wait_s: float | None = None


def fetch_bytes(url: str, patience: Patience, now: datetime) -> bytes:
    """Fetch what stands behind an address.

    Parameters
    ----------
    url : str
        Already found safe. What stands after its path is never repeated in an error.
    patience : Patience
        How long, how often.
    now : datetime
        With its time zone; a wait until an hour of the clock is counted from it.

    Returns
    -------
    bytes

    Raises
    ------
    ServiceNotReached
        If no try led to an answer.
    RequestRefused
        If the service refused, or sends elsewhere.
    AnswerNotRead
        If the answer is larger than `MOST_BYTES`.
    """
    tries, wait_s = 1, _FIRST_WAIT
    with urllib3.PoolManager(headers=_HEADERS) as pool:
        outcome = _try(pool, url, patience, now)
        while isinstance(outcome, _Failed):
            asked_s = wait_s if outcome.wait_s is None else outcome.wait_s
            if tries >= patience.tries or asked_s > patience.longest_wait_s:
                times = "once" if tries == 1 else f"{tries} times"
                raise ServiceNotReached(without_query(url), f"{outcome.what}; asked {times}")
            patience.sleep(asked_s)
            tries, wait_s = tries + 1, 2.0 * wait_s
            outcome = _try(pool, url, patience, now)
    return outcome


def _try(pool: urllib3.PoolManager, url: str, patience: Patience, now: datetime) -> bytes | _Failed:
    """Send a request once, and wait no longer for the outcome than patience has it.

    The limits of the HTTP client hold for each piece that comes: a head that drips in byte by
    byte, or a name that is looked up for ever, is under none of them. So the request is sent
    by a thread of its own, which is left behind where time is up; it ends with the program.
    """
    until = time.monotonic() + patience.answer_s
    done: Queue[bytes | _Failed | BaseException] = Queue(1)

    def ask() -> None:
        try:
            done.put(_asked(pool, url, patience, now, until))
        except BaseException as error:  # noqa: BLE001 - raised again where it is waited for
            done.put(error)

    Thread(target=ask, daemon=True).start()
    try:
        outcome = done.get(timeout=patience.answer_s)
    except Empty:
        return _too_long(patience)
    if isinstance(outcome, BaseException):
        raise outcome
    return outcome


def _asked(
    pool: urllib3.PoolManager, url: str, patience: Patience, now: datetime, until: float
) -> bytes | _Failed:
    limit = urllib3.Timeout(connect=patience.silence_s, read=patience.silence_s)
    try:
        # `retries` and `redirect` are off: waiting is ours, and nothing is sent elsewhere.
        with pool.request(
            "GET", url, preload_content=False, redirect=False, retries=False, timeout=limit
        ) as response:
            told = _body(response, url, until)
    except HTTPError as error:
        return _broken(error, patience)
    if told is None:
        return _too_long(patience)
    if response.status == HTTPStatus.OK:
        return told
    if response.status == HTTPStatus.TOO_MANY_REQUESTS or response.status >= 500:
        return _Failed(_status(response, told), _wait_asked(response, now))
    raise RequestRefused(without_query(url), _status(response, told))


def _too_long(patience: Patience) -> _Failed:
    return _Failed(f"the answer took longer than {patience.answer_s:g} s")


def _body(response: urllib3.BaseHTTPResponse, url: str, until: float) -> bytes | None:
    """Read an answer to its end; None where that takes too long."""
    read = bytearray()
    while piece := response.read1(_CHUNK, decode_content=False):
        read += piece
        if len(read) > MOST_BYTES:
            limit = f"{MOST_BYTES // 1_000_000} MB"
            raise AnswerNotRead(without_query(url), f"the answer must have at most {limit}")
        if time.monotonic() > until:
            return None
    return bytes(read)


def _status(response: urllib3.BaseHTTPResponse, told: bytes) -> str:
    """Say with what the service answered instead of weather."""
    elsewhere = response.headers.get("Location")
    if elsewhere and 300 <= response.status < 400:
        place = shown(without_query(elsewhere), most=100)
        return f'the answer must not send elsewhere, and does, to "{place}"'
    reason = reason_told(told)
    said = f', "{shown(reason, most=200)}"' if reason else ""
    return f"the service answers with status {response.status}{said}"


def _wait_asked(response: urllib3.BaseHTTPResponse, now: datetime) -> float | None:
    """Give the wait that the service asks for, in seconds or until an hour. [s]"""
    told = response.headers.get("Retry-After", "").strip()
    if told.isascii() and told.isdecimal():
        return float(told)
    try:
        when = parsedate_to_datetime(told)
    except (ValueError, OverflowError):  # a year, or an offset, of many digits
        return None
    if when.tzinfo is None:
        when = when.replace(tzinfo=UTC)
    return max(0.0, (when - now).total_seconds())


def _broken(error: HTTPError, patience: Patience) -> _Failed:
    if isinstance(error, SSLError):
        # Asking again does not mend a certificate.
        return _Failed("no safe connection: its certificate is missing or not trusted", math.inf)
    if isinstance(error, NameResolutionError):
        return _Failed("its name is not known, or there is no connection")
    # A connection that was turned down is a time-out to urllib3 as well.
    if isinstance(error, NewConnectionError):
        return _Failed("there is no connection")
    if isinstance(error, TimeoutError):
        return _Failed(f"no answer within {patience.silence_s:g} s")
    return _Failed("the connection broke off")
