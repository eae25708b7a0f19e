"""Entries read from their bytes once, though a walk is projected anew with every batch."""

from __future__ import annotations

from functools import lru_cache

from quarterwalk.journal import Entry, read_entry

# Seven long walks of some 300 entries; an entry takes about 2 kB, at the very most 20. [count]
_REMEMBERED = 2_048


@lru_cache(maxsize=_REMEMBERED)
def entry_of(raw: bytes) -> Entry:
    """Give the entry that some bytes are; the same bytes are the same entry for ever.

    Parameters
    ----------
    raw : bytes
        One line of a journal.

    Returns
    -------
    Entry

    Raises
    ------
    EntryFault
        As `read_entry`.
    """
    return read_entry(raw)
