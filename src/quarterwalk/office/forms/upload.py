"""Files that are handed in: taken whole, or told row by row what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Generic, TypeVar

from django import forms
from django.core.files.uploadedfile import UploadedFile

from quarterwalk.errors import Problem, RefusedInput
from quarterwalk.office.services.refused import ServiceRefused

Told = TypeVar("Told")

# What a journal file and a season's tables stay well below. [bytes]
_MOST = 64 << 20

# A disk takes names of 255 bytes; of these the endings, such as .csv.gz. [bytes]
_LONGEST_NAME, _ENDING = 200, 20


class UploadForm(forms.Form, Generic[Told]):
    """One file, read as it comes in.

    Parameters
    ----------
    read : callable
        Reads the file at a path; what it refuses is kept in `problems`.
    """

    file = forms.FileField(
        label="File",
        error_messages={
            "required": "Choose a file.",
            "empty": "This file is empty.",
            "missing": "Choose a file.",
        },
    )

    def __init__(self, read: Callable[[Path], Told], *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.read = read
        self.told: Told | None = None
        self.problems: tuple[Problem, ...] = ()
        self.more = 0

    def clean_file(self) -> Told | None:
        """Read the file; nothing of it is kept on the disk."""
        upload: UploadedFile[Any] = self.cleaned_data["file"]
        refuse_large(upload)
        with TemporaryDirectory() as folder, self.refusals():
            path = Path(folder) / plain_name(upload.name or "")
            write_to(path, upload)
            self.told = self.read(path)
        return self.told

    @contextmanager
    def refusals(self) -> Iterator[None]:
        """Keep the problems of whatever is refused inside, as faults of this form."""
        try:
            yield
        except RefusedInput as refused:
            self.problems = tuple(map(_without_folder, refused.problems))
            self.more = refused.more
            self.add_error("file", "See below what is wrong in it.")
        except ServiceRefused as refused:
            self.add_error("file", str(refused))


def refuse_large(upload: UploadedFile[Any]) -> None:
    """Refuse a file that is larger than any that is wanted.

    Parameters
    ----------
    upload : UploadedFile
        What was handed in.

    Raises
    ------
    ValidationError
        If it is.
    """
    if (upload.size or 0) > _MOST:
        raise forms.ValidationError(f"A file may have at most {_MOST >> 20} megabytes.")


def write_to(path: Path, upload: UploadedFile[Any]) -> None:
    """Write what was handed in to a file.

    Parameters
    ----------
    path : Path
        Where.
    upload : UploadedFile
        What was handed in.
    """
    with path.open("wb") as kept:
        for chunk in upload.chunks():
            kept.write(chunk)


def plain_name(name: str) -> str:
    """Keep the file's own name, by which it is told what kind it is, and problems are told.

    Parameters
    ----------
    name : str
        As it was handed in. [file name]

    Returns
    -------
    str
        Without folders, and cut in its middle where it is longer than a disk takes: it says
        what the file is by its end.
    """
    plain = Path(name.replace("\\", "/").replace("\0", "")).name.strip(". ") or "file"
    ending = "".join(Path(plain).suffixes[-2:]).encode("utf-8", "replace")[-_ENDING:]
    stem = plain.encode("utf-8", "replace")
    if len(stem) <= _LONGEST_NAME:
        return stem.decode("utf-8", "ignore")
    return (stem[: _LONGEST_NAME - len(ending)] + ending).decode("utf-8", "ignore")


def _without_folder(problem: Problem) -> Problem:
    return replace(problem, file=problem.file.rpartition("/")[2])
