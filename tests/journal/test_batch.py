"""A batch and a saved journal file come apart into the lines that were written."""

from __future__ import annotations

import pytest

from quarterwalk.journal import split_lines


@pytest.mark.parametrize(
    "body",
    [b"{1}\n{2}\n", b"{1}\n{2}", b"{1}\r\n{2}\r\n", b"{1}\r\n{2}", b"\n{1}\n\n \t\r\n{2}\n\n\r\n"],
)
def test_line_ends_of_any_system_and_blank_lines_are_no_part_of_an_entry(body: bytes) -> None:
    assert split_lines(body) == [b"{1}", b"{2}"]


@pytest.mark.parametrize("body", [b"", b"\n", b"\r\n", b" \n\t"])
def test_an_empty_batch_has_no_lines(body: bytes) -> None:
    assert split_lines(body) == []


def test_only_a_line_feed_ends_a_line() -> None:
    assert split_lines("a\u2028b\x0bc\x85d\re\n".encode()) == ["a\u2028b\x0bc\x85d\re".encode()]
