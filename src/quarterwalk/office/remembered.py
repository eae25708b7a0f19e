"""What a process remembers: so many things, the longest unused forgotten first."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
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
        self._held: OrderedDict[Key, Value] = OrderedDict()
        self._making: dict[Key, Lock] = {}
        self._lock = Lock()

    def get(self, key: Key) -> Value | None:
        """Give what is remembered of some content; None where nothing is."""
        with self._lock:
            if key not in self._held:
                return None
            self._held.move_to_end(key)
            return self._held[key]

    def made(self, key: Key, make: Callable[[], Value]) -> Value:
        """Give what is remembered of some content, made now where it is not.

        Parameters
        ----------
        key : hashable
            The content.
        make : callable
            Makes the thing; who asks for the same meanwhile waits for it.

        Returns
        -------
        Value
            The very same object for the same key, as long as it is remembered.
        """
        found = self.get(key)
        if found is not None:
            return found
        with self._lock:
            turn = self._making.setdefault(key, Lock())
        try:
            with turn:
                found = self.get(key)
                return self._hold(key, make()) if found is None else found
        finally:
            with self._lock:
                self._making.pop(key, None)

    def _hold(self, key: Key, made: Value) -> Value:
        with self._lock:
            while len(self._held) >= self.most:
                self._held.popitem(last=False)
            return self._held.setdefault(key, made)

    def clear(self) -> None:
        """Forget everything."""
        with self._lock:
            self._held.clear()
