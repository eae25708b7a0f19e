"""Between us and a service: busy, slow, broken, elsewhere, too much."""

from __future__ import annotations

import pickle
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import timedelta
from threading import Event, Thread

import pytest

from quarterwalk.files.weather_fetch import MOST_BYTES, Patience
from quarterwalk.files.weather_service import Service
from quarterwalk.files.weather_service_errors import (
    AnswerNotRead,
    RequestRefused,
    ServiceNotReached,
)
from tests.files.weather_server import (
    NOW,
    TODAY,
    Answering,
    Reply,
    fetched,
    one_after_another,
    plain_weather,
    serving,
)

BUSY = Reply(b'{"error": true, "reason": "Too many requests."}', 429)
DOWN = Reply(b"down", 503)


def busy_until(told: str) -> Reply:
    return replace(BUSY, headers={"Retry-After": told})


def free_port() -> int:
    """Give a port of this machine on which nobody listens."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def refused(answering: Answering, error: type[Exception], **changed: float) -> tuple[str, int]:
    """Fetch today from a server that fails; give what is said, and how often it was asked."""
    with serving(answering) as served:
        service = served.service()
        service = replace(service, patience=replace(service.patience, **changed))
        with pytest.raises(error) as caught:
            fetched(service, TODAY, TODAY)
    assert str(caught.value).startswith(f"{served.address}/forecast: ")
    assert "latitude" not in str(caught.value)
    return str(caught.value), len(served.asked)


def test_a_busy_service_is_asked_again_after_the_time_it_names() -> None:
    with serving(one_after_another(busy_until("7"))) as served:
        told = fetched(served.service(), TODAY, TODAY)
    assert not told.weather.missing.any()
    assert served.waited == [7.0]


def test_a_time_of_the_clock_is_waited_for_as_well() -> None:
    at = (NOW + timedelta(seconds=20)).astimezone().strftime("%a, %d %b %Y %H:%M:%S %z")
    with serving(one_after_another(busy_until(at))) as served:
        fetched(served.service(), TODAY, TODAY)
    assert served.waited == [20.0]


@pytest.mark.parametrize("told", ["soon", "-3", "", "٣", "Mon, 01 Jan 99999999999 00:00:00 GMT"])
def test_a_wait_that_makes_no_sense_is_not_taken(told: str) -> None:
    reply = busy_until(told) if told.isascii() else BUSY
    with serving(one_after_another(reply)) as served:
        fetched(served.service(), TODAY, TODAY)
    assert served.waited == [1.0]


@pytest.mark.parametrize("told", ["3600", "9" * 500])
def test_a_service_that_asks_for_too_long_a_wait_is_given_up_at_once(told: str) -> None:
    said, times = refused(lambda path, asked: busy_until(told), ServiceNotReached)
    assert times == 1
    assert "Too many requests." in said


def test_a_server_that_stays_down_is_given_up_after_some_tries_with_longer_waits() -> None:
    with serving(lambda path, asked: DOWN) as served, pytest.raises(ServiceNotReached) as caught:
        fetched(served.service(), TODAY, TODAY)
    assert len(served.asked) == 3
    assert served.waited == [1.0, 2.0]
    assert "status 503; asked 3 times" in str(caught.value)


def test_a_server_that_recovers_is_read() -> None:
    with serving(one_after_another(DOWN, DOWN)) as served:
        assert not fetched(served.service(), TODAY, TODAY).weather.missing.any()


def test_a_silent_server_is_given_up() -> None:
    said, times = refused(
        lambda path, asked: replace(plain_weather(path, asked), before_s=0.6),
        ServiceNotReached,
        silence_s=0.1,
        tries=2,
    )
    assert "no answer within 0.1 s; asked 2 times" in said
    assert times == 2


def test_a_server_that_trickles_is_given_up() -> None:
    said, _ = refused(
        lambda path, asked: replace(plain_weather(path, asked), between_s=0.01),
        ServiceNotReached,
        answer_s=0.2,
        tries=1,
    )
    assert "longer than 0.2 s; asked once" in said


def test_a_server_whose_head_drips_in_is_given_up_in_time() -> None:
    began = time.monotonic()
    with dripping() as port:
        address = f"http://127.0.0.1:{port}/v1"
        patience = Patience(silence_s=5.0, answer_s=0.4, tries=2, sleep=lambda _: None)
        with pytest.raises(ServiceNotReached, match=r"longer than 0\.4 s; asked 2 times"):
            fetched(Service(address, address, patience=patience), TODAY, TODAY)
        assert time.monotonic() - began < 3.0


@contextmanager
def dripping() -> Iterator[int]:
    """Give a port whose head comes byte by byte, without an end until the block ends."""
    over = Event()

    def drip(line: socket.socket) -> None:
        with line, suppress(OSError):
            line.sendall(b"HTTP/1.1 200 OK\r\nX-Long: ")
            while not over.wait(0.05):
                line.sendall(b"a")

    def listen() -> None:
        with suppress(OSError):
            while not over.is_set():
                Thread(target=drip, args=(door.accept()[0],), daemon=True).start()

    with socket.create_server(("127.0.0.1", 0)) as door:
        door.settimeout(10)
        Thread(target=listen, daemon=True).start()
        try:
            yield int(door.getsockname()[1])
        finally:
            over.set()


def test_an_answer_that_breaks_off_is_asked_for_again() -> None:
    broken = Reply(b'{"daily"', headers={"Content-Length": "4000"})
    with serving(one_after_another(broken)) as served:
        assert not fetched(served.service(), TODAY, TODAY).weather.missing.any()
    assert len(served.asked) == 2


def test_nobody_there_is_said_plainly() -> None:
    waited: list[float] = []
    nobody = f"http://127.0.0.1:{free_port()}/v1"
    service = Service(nobody, nobody, patience=Patience(sleep=waited.append))
    with pytest.raises(ServiceNotReached, match="there is no connection; asked 3 times"):
        fetched(service, TODAY, TODAY)
    assert waited == [1.0, 2.0]


def test_a_server_that_speaks_no_tls_is_not_asked_twice() -> None:
    with serving() as served:
        secure = f"https://127.0.0.1:{served.port}/v1"
        service = served.service(forecast=secure)
        with pytest.raises(ServiceNotReached, match="certificate"):
            fetched(service, TODAY, TODAY)
    assert served.waited == []


@pytest.mark.parametrize("status", [301, 302, 307, 308])
def test_being_sent_elsewhere_is_refused_and_nothing_is_asked_there(status: int) -> None:
    with serving() as elsewhere:
        where = {"Location": f"{elsewhere.address}/forecast?latitude=33.6"}
        said, _ = refused(lambda path, asked: Reply(b"", status, where), RequestRefused)
    assert f'must not send elsewhere, and does, to "{elsewhere.address}/forecast"' in said
    assert not elsewhere.asked


def test_a_refused_request_is_not_sent_again_and_its_reason_is_told() -> None:
    bad = Reply(b'{"error": true, "reason": "Latitude must be in range."}', 400)
    said, times = refused(lambda path, asked: bad, RequestRefused)
    assert times == 1
    assert 'status 400, "Latitude must be in range."' in said


def test_a_page_instead_of_an_answer_is_refused() -> None:
    page = Reply(b"<html>Sign in</html>", headers={"Content-Type": "text/html"})
    said, _ = refused(lambda path, asked: page, AnswerNotRead)
    assert 'begins with "<html>Sign in</html>"' in said


def test_an_answer_that_is_too_large_is_refused() -> None:
    said, _ = refused(lambda path, asked: Reply(b" " * (MOST_BYTES + 1)), AnswerNotRead)
    assert "at most 4 MB" in said


def test_a_size_that_is_only_claimed_is_not_waited_for() -> None:
    claimed = Reply(b" " * (MOST_BYTES + 1), headers={"Content-Length": str(10**15)})
    said, _ = refused(lambda path, asked: claimed, AnswerNotRead)
    assert "at most 4 MB" in said


def test_an_error_survives_pickling() -> None:
    error = ServiceNotReached("https://weather.example/v1", "there is no connection")
    assert str(pickle.loads(pickle.dumps(error))) == str(error)
