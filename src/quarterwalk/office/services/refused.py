"""What a service says when it will not do a thing: a sentence for the person who asked."""

from __future__ import annotations

from quarterwalk.errors import QuarterwalkError


class ServiceRefused(QuarterwalkError):
    """Something that can't be done as asked; nothing was changed.

    Parameters
    ----------
    said : str
        Why, and what to do.
    about : str
        The form's field that it is about; empty where it is about the whole.
    """

    def __init__(self, said: str, about: str = "") -> None:
        super().__init__(said, about)
        self.said = said
        self.about = about

    def __str__(self) -> str:
        return self.said
