"""A memory of bounded size for what short texts come to."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

Made = TypeVar("Made")
#: Longer texts hardly come twice.
_LONGEST = 80


class Remembered(dict[str, Made]):
    """Looked up like any dictionary, what is missing is made; when it is full, everything is forgotten at once."""

    __slots__ = ("_make", "_most")

    def __init__(self, make: Callable[[str], Made], most: int) -> None:
        """Remember `most` results of `make`."""
        super().__init__()
        self._make, self._most = make, most

    def __missing__(self, key: str) -> Made:
        """Make what is not remembered."""
        made = self._make(key)
        if len(key) <= _LONGEST:
            if len(self) >= self._most:
                self.clear()
            self[key] = made
        return made
