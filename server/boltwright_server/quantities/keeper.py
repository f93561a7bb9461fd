"""The one keeper of what is remembered: every memory has a name, and together they are bounded by bytes.

A hit costs what `functools.lru_cache` costs. What an entry takes is estimated from one in sixty-four of those that are
new; where the sum exceeds the limit, the largest memory is forgotten, until three quarters of the limit are left.
"""

from __future__ import annotations

import functools
import threading
from collections.abc import Callable, Iterator
from sys import getrefcount, getsizeof
from typing import Any, NamedTuple, TypeVar

T = TypeVar("T")
#: Bytes that a process remembers where nobody says otherwise.
MOST_BYTES = 256 * 1024 * 1024
#: An entry beside what it holds: its place in the dictionary and in the order of use, and its key.
_BESIDE = 250
#: References from which on an object is a fact that others hold too, and is not counted.
_SHARED = 10
_DEEPEST = 6
#: New entries between two that are weighed; the first ones are weighed all.
_EACH, _FIRST = 64, 16


class Size(NamedTuple):
    """What a memory holds: entries, and the bytes that they take, estimated."""

    entries: int
    bytes: int


class Memory:
    """What one function has worked out before."""

    def __init__(self, name: str, size: Callable[[], Size], forget: Callable[[], None]) -> None:
        self.name = name
        self.size = size
        self.forget = forget

    @property
    def room(self) -> str:
        """The room of the house that it belongs to."""
        return self.name.split(".")[1]


class Keeper:
    """All memories of this process."""

    def __init__(self) -> None:
        self.memories: dict[str, Memory] = {}
        self.limit = MOST_BYTES
        #: How often a memory was forgotten for want of room.
        self.forgotten = 0
        self._lock = threading.RLock()
        self._grown = 0.0

    def add(self, memory: Memory) -> None:
        """Keep a memory; a module that is imported anew replaces its own."""
        self.memories[memory.name] = memory

    def bytes(self) -> int:
        """Return what all memories take together."""
        return sum(memory.size().bytes for memory in self.memories.values())

    def by_room(self) -> dict[str, Size]:
        """Return what the memories of each room hold."""
        found: dict[str, Size] = {}
        for memory in self.memories.values():
            size, before = memory.size(), found.get(memory.room, Size(0, 0))
            found[memory.room] = Size(before.entries + size.entries, before.bytes + size.bytes)
        return found

    def forget(self, prefix: str = "") -> None:
        """Forget every memory whose name starts so: names are those of the functions, module first."""
        for memory in list(self.memories.values()):
            if memory.name.startswith(prefix):
                memory.forget()

    def grow(self, size: float) -> None:
        """Take note of new entries; now and then see that the sum is within the limit."""
        self._grown += size
        if self._grown > self.limit / 64:
            self.check()

    def check(self) -> None:
        """Forget the largest memories where all together exceed the limit."""
        with self._lock:
            self._grown = 0.0
            sizes = {name: memory.size().bytes for name, memory in self.memories.items()}
            total = sum(sizes.values())
            if total <= self.limit:
                return
            for name in sorted(sizes, key=sizes.__getitem__, reverse=True):
                self.memories[name].forget()
                self.forgotten += 1
                total -= sizes[name]
                if total <= self.limit * 3 // 4:
                    return


KEEPER = Keeper()


def remembered(most: int | None = None) -> Callable[[Callable[..., T]], functools._lru_cache_wrapper[T]]:
    """Remember what a pure function answered, for `most` different arguments, or for as many as there is room for.

    Leave `most` away where the arguments are held facts; what clients write is counted.
    """

    def decorate(function: Callable[..., T]) -> functools._lru_cache_wrapper[T]:
        scale = _Scale()

        @functools.wraps(function)
        def weighed(*arguments: Any, **named: Any) -> T:
            found = function(*arguments, **named)
            scale.until_next -= 1
            if not scale.until_next:
                scale.weigh(arguments, found)
            return found

        kept = functools.lru_cache(maxsize=most)(weighed)

        def size() -> Size:
            entries = kept.cache_info().currsize
            return Size(entries, int(entries * scale.mean))

        KEEPER.add(Memory(f"{function.__module__}.{function.__qualname__}", size, kept.cache_clear))
        return kept

    return decorate


class _Scale:
    """What the entries of a memory weigh, one with the other."""

    __slots__ = ("_each", "_sum", "_weighed", "mean", "until_next")

    def __init__(self) -> None:
        self._weighed = self._sum = 0
        self._each = self.until_next = 1
        self.mean = 0.0

    def weigh(self, arguments: tuple[Any, ...], found: Any) -> None:
        """Weigh a new entry; those since the last one are taken for as heavy as all that were weighed."""
        size = _BESIDE + weight(found)
        for one in arguments:
            size += getsizeof(one) if isinstance(one, str) else weight(one)
        self._sum += size
        self._weighed += 1
        self.mean = self._sum / self._weighed
        KEEPER.grow(self.mean * self._each)
        self._each = self.until_next = 1 if self._weighed < _FIRST else _EACH


def weight(value: Any, depth: int = 0) -> int:
    """Return the bytes that a value takes by itself; what many others refer to is theirs too, and counts nothing."""
    if getrefcount(value) > _SHARED:
        return 0
    size = _own_size(value)
    if depth < _DEEPEST and not isinstance(value, str | bytes | int | float):
        for one in _parts(value):
            size += weight(one, depth + 1)
    return size


def _own_size(value: Any) -> int:
    """Return the bytes of an object; types of C libraries that hold bytes may state any length (`msgspec.Raw`)."""
    kind = type(value)
    if kind.__itemsize__ and kind.__module__ != "builtins":
        try:
            return kind.__basicsize__ + memoryview(value).nbytes
        except TypeError:
            pass
    return getsizeof(value)


def _parts(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        yield from value
        yield from value.values()
    elif isinstance(value, tuple | list | set | frozenset):
        yield from value
    else:
        yield from getattr(value, "__dict__", {}).values()
        for name in getattr(type(value), "__slots__", ()):
            if hasattr(value, name):
                yield getattr(value, name)
