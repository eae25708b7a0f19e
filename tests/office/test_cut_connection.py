"""A connection that is cut in the middle of a line leaves nothing behind."""

from __future__ import annotations

import random
import socket
from pathlib import Path

from tests.office.ends import Said
from tests.office.histories import make_history
from tests.office.live import BEGINS, Live, live_office
from tests.office.offices import cast_of


def send_a_part(live: Live, batch: list[Said], arrived: int) -> None:
    """Promise the whole batch, send its first bytes, and hang up."""
    assert live.tokens is not None
    body = b"".join(said.line + b"\n" for said in batch)
    head = (
        "POST /sync/entries HTTP/1.1\r\nHost: localhost\r\n"
        f"Authorization: Bearer {live.tokens[batch[0].device]}\r\n"
        f"Content-Type: application/x-ndjson\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", live.port), timeout=30) as wire:
        wire.sendall(head.encode() + body[:arrived])
        wire.shutdown(socket.SHUT_WR)
        wire.recv(1)  # until the office has hung up too


def test_a_cut_connection_leaves_nothing_behind(tmp_path: Path) -> None:
    history, rng = make_history(5, cast_of(BEGINS), walks=8), random.Random(5)
    batch = history.journal(history.devices[0])
    most = sum(len(said.line) + 1 for said in batch) - 1
    with live_office(tmp_path) as live:
        for arrived in (0, 1, most, *(rng.randint(2, most) for _ in range(20))):
            send_a_part(live, batch, arrived)
            assert live.count() == 0, f"{arrived} bytes left something"
        status, answers = live.post(batch[0].device, batch)
        assert (status, {answer["answer"] for answer in answers}) == (200, {"held"})
        assert dict(live.held()) == {said.key: said.line for said in batch}
