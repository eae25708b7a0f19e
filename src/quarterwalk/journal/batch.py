"""Many entries in one text: what a phone sends, and what a saved journal file holds."""

from __future__ import annotations


def split_lines(body: bytes) -> list[bytes]:
    r"""Take a batch apart into its lines.

    Parameters
    ----------
    body : bytes
        Entries, one a line; lines end in ``\n`` or ``\r\n``, the last need not end. [UTF-8]

    Returns
    -------
    list of bytes
        The lines in order, without their ends; blank ones are left out.
    """
    lines = (line.removesuffix(b"\r") for line in body.split(b"\n"))
    return [line for line in lines if line.strip(b" \t\r")]
