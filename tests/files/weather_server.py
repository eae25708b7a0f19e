"""A service of weather on this machine, for tests: it answers as it is told, and counts.

Its form of answer is written here from the public documentation of the forecast and archive
interfaces of Open-Meteo ("Weather Forecast API", "Historical Weather API"); the temperatures
are invented.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, timezone
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from quarterwalk.files.weather_fetch import Patience
from quarterwalk.files.weather_service import FetchedWeather, Service, fetch_weather

NOW = datetime(2026, 6, 30, 7, 0, tzinfo=timezone(timedelta(hours=-5)))
TODAY = NOW.date()
FIELD = (-101.8732, 33.5871)
PAST, COMING = (60.0, 90.0), (66.0, 99.0)
"""Lowest and highest of every day: of the history, and of the forecast. [°F]"""


@dataclass
class Reply:
    """What the server sends back, and how slowly."""

    body: bytes = b""
    status: int = 200
    headers: dict[str, str] = field(default_factory=dict)
    before_s: float = 0.0
    between_s: float = 0.0


Asked = dict[str, str]
Answering = Callable[[str, Asked], Reply]


@dataclass
class Served:
    """A running server: where it is, and what it was asked."""

    port: int
    asked: list[tuple[str, Asked]]
    answering: Answering
    waited: list[float] = field(default_factory=list)
    agents: list[str] = field(default_factory=list)

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def service(self, **changed: Any) -> Service:
        patience = Patience(silence_s=5.0, sleep=self.waited.append)
        told = {"forecast": f"{self.address}/forecast", "history": f"{self.address}/archive"}
        return Service(**{**told, "patience": patience, **changed})

    def paths(self) -> list[str]:
        return [path for path, _ in self.asked]


def days_told(first: date, low: list[Any], high: list[Any]) -> dict[str, Any]:
    """Give an answer with days in a row."""
    days = [(first + timedelta(days=n)).isoformat() for n in range(len(low))]
    return {
        "latitude": 33.6,
        "longitude": -101.9,
        "elevation": 975.0,
        "timezone": "America/Chicago",
        "daily_units": {
            "time": "iso8601",
            "temperature_2m_max": "°F",
            "temperature_2m_min": "°F",
        },
        "daily": {"time": days, "temperature_2m_max": high, "temperature_2m_min": low},
    }


def in_json(told: object) -> Reply:
    body = json.dumps(told, ensure_ascii=False).encode()
    return Reply(body, headers={"Content-Type": "application/json; charset=utf-8"})


def plain_weather(path: str, asked: Asked, today: date = TODAY) -> Reply:
    """Answer with the days asked for, all alike."""
    if path == "/forecast":
        first = today - timedelta(days=int(asked["past_days"]))
        count, (low, high) = int(asked["past_days"]) + int(asked["forecast_days"]), COMING
    else:
        first, last = (date.fromisoformat(asked[name]) for name in ("start_date", "end_date"))
        count, (low, high) = (last - first).days + 1, PAST
    return in_json(days_told(first, [low] * count, [high] * count))


def one_after_another(*replies: Reply) -> Answering:
    """Answer with each reply in turn, then with plain weather."""
    left = list(replies)
    return lambda path, asked: left.pop(0) if left else plain_weather(path, asked)


@contextmanager
def serving(answering: Answering = plain_weather) -> Iterator[Served]:
    """Serve on a free port of this machine until the block ends."""

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            parts = urlsplit(self.path)
            asked = dict(parse_qsl(parts.query))
            served.asked.append((parts.path, asked))
            served.agents.append(self.headers["User-Agent"])
            _send(self, served.answering(parts.path, asked))

        def log_message(self, format: str, *args: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    served = Served(server.server_address[1], [], answering)
    thread = Thread(target=server.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    try:
        yield served
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def _send(handler: BaseHTTPRequestHandler, reply: Reply) -> None:
    time.sleep(reply.before_s)
    try:
        handler.send_response(reply.status)
        for name, value in reply.headers.items():
            handler.send_header(name, value)
        if "Content-Length" not in reply.headers:
            handler.send_header("Content-Length", str(len(reply.body)))
        handler.end_headers()
        pieces = [bytes([b]) for b in reply.body] if reply.between_s else [reply.body]
        for piece in pieces:
            handler.wfile.write(piece)
            time.sleep(reply.between_s)
    except OSError:  # who asked has hung up, as a test wants
        pass


def fetched(
    service: Service, first: date, last: date, now: datetime = NOW, cache: Path | None = None
) -> FetchedWeather:
    """Fetch the weather of the field of these tests."""
    return fetch_weather(FIELD, first, last, now=now, service=service, cache=cache)
