"""Files out of a zip, with nothing taken on trust that the zip says of itself."""

from __future__ import annotations

import io
import lzma
import stat
import struct
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import PurePosixPath

from quarterwalk.errors import shown
from quarterwalk.files.boundary_limits import (
    FREE_OF_RATIO,
    MOST_BYTES,
    MOST_MEMBERS,
    MOST_RATIO,
    megabytes,
)
from quarterwalk.files.refusal import DAMAGED, refuse

ZIP_MAGIC = (b"PK\x03\x04", b"PK\x05\x06")
"""How a zip begins; the second, one without any file in it."""

DAMAGED_ZIP = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    NotImplementedError,  # a compression that this Python does not know
    RuntimeError,  # a password
    EOFError,
    OSError,
    ValueError,
    KeyError,
)
"""What reading a zip that is damaged, locked or forged may raise."""

_PIECE = 1 << 18
_LOCKED = 1  # Bit of a member's flags that says that it has a password.
_COMPRESSIONS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_NOBODYS = ("__macosx", ".ds_store", "thumbs.db")


@dataclass(frozen=True, slots=True)
class Member:
    """One file of a zip: its path in small and capital letters as given, and its bytes."""

    path: PurePosixPath
    data: bytes

    @property
    def suffix(self) -> str:
        """How its name ends, in small letters."""
        return self.path.suffix.lower()


def members(file: str, data: bytes, wanted: Callable[[str], bool]) -> tuple[Member, ...]:
    """Unpack the files that are wanted, in memory, each up to the limits.

    Parameters
    ----------
    file : str
        What errors call the zip.
    data : bytes
        The zip.
    wanted : callable
        Tells by the end of a name, such as ``.shp``, whether the file is read.

    Returns
    -------
    tuple of Member
        In the order of the zip; nothing is written anywhere.

    Raises
    ------
    RefusedInput
        If it is damaged, locked, has links, other zips or paths that lead out of it, or
        unpacks to too much.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            infos = packed.infolist()
            if len(infos) > MOST_MEMBERS:
                refuse(file, f"{len(infos):,}", f"a zip of at most {MOST_MEMBERS} files")
            kept = [info for info in infos if _is_read(file, info, wanted)]
            _refuse_twins(file, kept)
            left, found = MOST_BYTES, []
            for info in kept:
                member = Member(PurePosixPath(info.filename), _unpacked(file, packed, info, left))
                left -= len(member.data)
                found.append(member)
            return tuple(found)
    except DAMAGED_ZIP:
        refuse(file, DAMAGED, "a zip that is whole")


def _is_read(file: str, info: zipfile.ZipInfo, wanted: Callable[[str], bool]) -> bool:
    """Refuse what no honest zip of boundaries holds; pass over what need not be read."""
    name = shown(info.filename)
    path = PurePosixPath(info.filename)
    if path.is_absolute() or ".." in path.parts or set("\\:\x00") & set(info.filename):
        refuse(file, name, "a zip whose files all lie inside it")
    if stat.S_ISLNK(info.external_attr >> 16):
        refuse(file, f"{name}, a link", "a zip of plain files")
    if path.suffix.lower() in (".zip", ".kmz"):
        refuse(file, name, "a zip without another inside it", "Unpack it once.")
    if name.endswith("/") or any(part.lower() in _NOBODYS for part in path.parts):
        return False
    if not wanted(path.suffix.lower()):
        return False
    if info.flag_bits & _LOCKED:
        refuse(file, f"{name}, locked", "a zip without a password")
    if info.compress_type not in _COMPRESSIONS:
        refuse(file, f"{name}, packed in another way", "a zip packed in the usual way (deflate)")
    return True


def _refuse_twins(file: str, infos: list[zipfile.ZipInfo]) -> None:
    seen = set()
    for info in infos:
        if info.filename.lower() in seen:
            refuse(file, shown(info.filename), "a zip that holds each file once")
        seen.add(info.filename.lower())


def _unpacked(file: str, packed: zipfile.ZipFile, info: zipfile.ZipInfo, left: int) -> bytes:
    """Unpack in pieces and count what really comes, whatever the zip says."""
    most = max(FREE_OF_RATIO, MOST_RATIO * max(info.compress_size, 1))
    out = bytearray()
    with packed.open(info) as stream:
        while piece := stream.read(_PIECE):
            out += piece
            if len(out) > left:
                refuse(
                    file, "a larger one", f"a zip that unpacks to at most {megabytes(MOST_BYTES)}"
                )
            if len(out) > most:
                refuse(
                    file,
                    shown(info.filename),
                    f"a file that unpacks to at most {MOST_RATIO} times its size",
                )
    return bytes(out)
