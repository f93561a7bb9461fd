"""Has this been seen before? Exact, over streams of any length, in eight bytes of memory a row.

Of old keys only 32 bits of a hash and a place are kept in memory, in sorted runs; the words themselves lie in a
temporary file and are compared before anything is called a duplicate.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from types import TracebackType
from typing import NamedTuple, Self

import numpy as np
import numpy.typing as npt

_RUN = 32_768
_MERGED_RUN = 8 * _RUN
#: Keys that came back are remembered up to this many: they tend to come back again.
_REPEATED = 8192
_FILTER_BITS = 1 << 25
_MASK = (1 << 64) - 1
#: Entries of the temporary file start on multiples of this, so that 32 bits reach 32 GiB.
_STEP = 8
Column = npt.NDArray[np.uint32]


class First(NamedTuple):
    """The first row of a key, and the label that it had."""

    row: int
    label: str


class Seen:
    """Remembers the first row and label of every key."""

    def __init__(self) -> None:
        """Open the temporary file; it vanishes with the object."""
        self._recent: dict[str, First] = {}
        self._repeated: dict[str, First] = {}
        self._runs: list[tuple[Column, Column]] = []
        self._filter = bytearray(_FILTER_BITS // 8)
        self._file = tempfile.TemporaryFile()  # noqa: SIM115 - closed by __exit__
        self._end = 0

    def __enter__(self) -> Self:
        """Return itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Give the temporary file back."""
        self._file.close()

    def first(self, key: str, row: int, label: str) -> First | None:
        """Return row and label of the first occurrence of the key, or remember this one and return None."""
        known = self._recent.get(key)
        if known is not None:
            return known
        if self._runs:
            number = hash(key)
            if self._filter[(number & (_FILTER_BITS - 1)) >> 3] & (1 << (number & 7)):
                known = self._repeated.get(key) or self._in_file(key, number & _MASK)
                if known is not None:
                    return known
        self._recent[key] = First(row, label)
        if len(self._recent) >= _RUN:
            self._spill()
        return None

    def _in_file(self, key: str, number: int) -> First | None:
        for at in self._places(number):
            stored, first = self._stored(at)
            if stored == key:
                if len(self._repeated) >= _REPEATED:
                    self._repeated.clear()
                self._repeated[key] = first
                return first
        return None

    def _places(self, number: int) -> Iterator[int]:
        """Yield every place in the file that may hold a key of that hash."""
        short = np.uint32(number >> 32)
        for numbers, places in self._runs:
            for index in range(int(numbers.searchsorted(short)), int(numbers.searchsorted(short, side="right"))):
                yield int(places[index]) * _STEP

    def _stored(self, at: int) -> tuple[str, First]:
        self._file.seek(at)
        length = int.from_bytes(self._file.read(4), "big")
        row, label, key = self._file.read(length).decode("utf-8", "surrogatepass").split("\x1f", 2)
        return key, First(int(row), label)

    def _spill(self) -> None:
        """Move the recent keys into the file and a sorted run, and merge small runs into one."""
        count = len(self._recent)
        numbers, places = np.empty(count, dtype=np.uint32), np.empty(count, dtype=np.uint32)
        entries = []
        for index, (key, first) in enumerate(self._recent.items()):
            number = hash(key)
            self._filter[(number & (_FILTER_BITS - 1)) >> 3] |= 1 << (number & 7)
            numbers[index], places[index] = (number & _MASK) >> 32, self._end // _STEP
            line = f"{first.row}\x1f{first.label}\x1f{key}".encode("utf-8", "surrogatepass")
            entry = len(line).to_bytes(4, "big") + line
            entries.append(entry + bytes(-len(entry) % _STEP))
            self._end += len(entries[-1])
        self._file.seek(0, 2)
        self._file.write(b"".join(entries))
        self._recent = {}
        self._runs.append(_ordered(numbers, places))
        small = [run for run in self._runs if len(run[0]) < _MERGED_RUN]
        if sum(len(run[0]) for run in small) >= _MERGED_RUN:
            merged = _ordered(np.concatenate([run[0] for run in small]), np.concatenate([run[1] for run in small]))
            self._runs = [run for run in self._runs if len(run[0]) >= _MERGED_RUN] + [merged]


def _ordered(numbers: Column, places: Column) -> tuple[Column, Column]:
    order = numbers.argsort()
    return numbers[order], places[order]
