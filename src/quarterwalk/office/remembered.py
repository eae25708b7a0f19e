"""What a process remembers: so many things, the oldest forgotten first."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value")


class Remembered(Generic[Key, Value]):
    """Things made once, each by the content that it is made from; threads may share it.

    Parameters
    ----------
    most : int
        How many. [count]
    """

    def __init__(self, most: int) -> None:
        self.most = most
        self._held: dict[Key, Value] = {}

    def get(self, key: Key) -> Value | None:
        """Give what is remembered of some content; None where nothing is."""
        return self._held.get(key)

    def made(self, key: Key, make: Callable[[], Value]) -> Value:
        """Give what is remembered of some content, made now where it is not.

        Parameters
        ----------
        key : hashable
            The content.
        make : callable
            Makes the thing.

        Returns
        -------
        Value
            The very same object for the same key, as long as it is remembered.
        """
        found = self._held.get(key)
        if found is not None:
            return found
        made = make()
        while len(self._held) >= self.most:
            self._held.pop(next(iter(list(self._held))), None)
        return self._held.setdefault(key, made)

    def clear(self) -> None:
        """Forget everything."""
        self._held.clear()
