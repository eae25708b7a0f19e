"""Parts of an entry that are each possible, but not beside one another."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from quarterwalk.journal.body import Kind
from quarterwalk.journal.form import Content
from quarterwalk.journal.ids import opening_key, walk_id
from quarterwalk.journal.strict_json import key_in


def at_odds(content: Content) -> str | None:
    """Say what in an entry contradicts the rest of it, or the calendar.

    Parameters
    ----------
    content : mapping
        An entry that has the published form. [JSON object]

    Returns
    -------
    str or None
        The first contradiction; None where there is none.
    """
    body = content["body"]
    if not _reads(datetime.fromisoformat, content["at"]):
        return f"at must be a day of the calendar, got {content['at']}."
    if "on" in body and not _reads(date.fromisoformat, body["on"]):
        return f"body.on must be a day of the calendar, got {body['on']}."
    return _against_its_key(content)


def _against_its_key(content: Content) -> str | None:
    key, body, walk = key_in(content), content["body"], content.get("walk")
    if key is None or walk is None:
        return None
    if content["kind"] == Kind.WALK_OPENED:
        own = walk_id(key.device, key.seq)
        return None if walk == own else f"walk must be {own}, since this entry opens it."
    opened = opening_key(walk)
    if opened and opened.device == key.device and opened.seq >= key.seq:
        return "walk must be one that was opened by an earlier entry."
    if content["kind"] == Kind.STRUCK and body["seq"] >= key.seq:
        return "body.seq must be the number of an earlier entry."
    if content["kind"] == Kind.WALK_CLOSED and key.device not in body["entries"]:
        return "body.entries must count this device's own entries too."
    return None


def _reads(read: Callable[[str], object], text: str) -> bool:
    try:
        read(text)
    except ValueError:
        return False
    return True
