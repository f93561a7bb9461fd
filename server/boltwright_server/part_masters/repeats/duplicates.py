"""Has this been seen before? Exact, over streams of any length, in eight bytes of memory a row.

Of old keys only 32 bits of a hash and a number are kept in memory, in sorted runs; the words themselves lie in the
pages of a temporary file and are compared before anything is called a duplicate. Keys are asked for in blocks: what is
done for every one of them is then done by `map`, `zip` and numpy, which is what makes it cheap.
"""

from __future__ import annotations

import marshal
import tempfile
from array import array
from collections.abc import Sequence
from types import TracebackType
from typing import NamedTuple, Self

import numpy as np
import numpy.typing as npt

#: So many runs of about one size become one: few are looked through, and a key is sorted a few times only.
_RUNS = 8
#: Keys that came back are remembered up to this many: they tend to come back again.
_REPEATED = 8192
_FILTER_BITS = 1 << 25
#: Keys that are written and read together; where they lie is kept of the whole page only.
_PAGE = 32
Column = npt.NDArray[np.uint32]
Hashes = npt.NDArray[np.uint64]


class First(NamedTuple):
    """The first row of a key, and the label that it had."""

    row: int
    label: str


class Seen:
    """Remembers the first row and label of every key."""

    def __init__(self) -> None:
        """Open the temporary file; it vanishes with the object."""
        self._repeated: dict[str, First] = {}
        self._runs: list[tuple[Column, Column]] = []
        self._filter = np.zeros(_FILTER_BITS // 8, dtype=np.uint8)
        self._file = tempfile.TemporaryFile()  # noqa: SIM115 - closed by __exit__
        #: Where each page of the file starts, and where the last one ends.
        self._pages = array("Q", [0])

    def __enter__(self) -> Self:
        """Return itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Give the temporary file back."""
        self._file.close()

    def firsts(self, keys: Sequence[str], rows: Sequence[int], labels: Sequence[str]) -> dict[int, First]:
        """Return the first occurrence of every key that occurred before, by the row that has it now.

        The others are remembered. The keys stand in the order of their rows, each row is asked for once.
        """
        hashes = _hashes(keys)
        found = self._of_runs(keys, hashes, rows) if self._runs else {}
        entries = list(zip(rows, labels, strict=True))
        if found:
            keys = [key for key, row in zip(keys, rows, strict=True) if row not in found]
            entries = [entry for entry in entries if entry[0] not in found]
        new: dict[str, tuple[int, str]] = {}
        # Which of two equal entries a dictionary holds tells whether the key is new.
        for entry, known in zip(entries, map(new.setdefault, keys, entries), strict=True):
            if known is not entry:
                found[entry[0]] = First(*known)
        if new:
            self._remember(list(new), list(new.values()), hashes if len(new) == len(hashes) else _hashes(list(new)))
        return found

    def _of_runs(self, keys: Sequence[str], hashes: Hashes, rows: Sequence[int]) -> dict[int, First]:
        """Return what `firsts` returns for the keys of earlier blocks."""
        found = {}
        for at, numbers in self._perhaps(hashes).items():
            key = keys[at]
            first = self._repeated.get(key) or self._in_file(key, numbers)
            if first is not None:
                found[rows[at]] = first
        return found

    def _perhaps(self, hashes: Hashes) -> dict[int, list[int]]:
        """Return the numbers of the old keys that have the same hash, by the place of the key."""
        asked = np.flatnonzero(self._filter[_byte(hashes)] & _bit(hashes))
        found: dict[int, list[int]] = {}
        if len(asked):
            short = _short(hashes[asked])
            for sorted_hashes, numbers in self._runs:
                low, high = sorted_hashes.searchsorted(short), sorted_hashes.searchsorted(short, side="right")
                for hit in np.flatnonzero(low < high):
                    found.setdefault(int(asked[hit]), []).extend(numbers[low[hit] : high[hit]].tolist())
        return found

    def _in_file(self, key: str, numbers: list[int]) -> First | None:
        for number in numbers:
            stored, first = self._stored(number)
            if stored == key:
                if len(self._repeated) >= _REPEATED:
                    self._repeated.clear()
                self._repeated[key] = first
                return first
        return None

    def _stored(self, number: int) -> tuple[str, First]:
        page, at = divmod(number, _PAGE)
        self._file.seek(self._pages[page])
        keys, firsts = marshal.loads(self._file.read(self._pages[page + 1] - self._pages[page]))
        return keys[at], First(*firsts[at])

    def _remember(self, keys: list[str], firsts: list[tuple[int, str]], hashes: Hashes) -> None:
        """Write new keys to the file, and their hashes into the filter and a run of their own."""
        np.bitwise_or.at(self._filter, _byte(hashes), _bit(hashes))
        number = (len(self._pages) - 1) * _PAGE
        self._file.seek(self._pages[-1])
        for at in range(0, len(keys), _PAGE):
            # Version 2 does not look for objects that occur twice.
            page = marshal.dumps((keys[at : at + _PAGE], firsts[at : at + _PAGE]), 2)
            self._file.write(page)
            self._pages.append(self._pages[-1] + len(page))
        runs = self._runs
        runs.append(_ordered(_short(hashes), np.arange(number, number + len(keys), dtype=np.uint32)))
        while len(runs) >= _RUNS and len(runs[-_RUNS][0]) < _RUNS * len(runs[-1][0]):
            merged = _ordered(*(np.concatenate(columns) for columns in zip(*runs[-_RUNS:], strict=True)))
            runs[-_RUNS:] = [merged]


def _hashes(keys: Sequence[str]) -> Hashes:
    return np.fromiter(map(hash, keys), np.int64, len(keys)).view(np.uint64)


def _byte(hashes: Hashes) -> npt.NDArray[np.int64]:
    """Return the byte of the filter that belongs to each hash."""
    return ((hashes & np.uint64(_FILTER_BITS - 1)) >> np.uint64(3)).astype(np.int64)


def _bit(hashes: Hashes) -> npt.NDArray[np.uint8]:
    return np.left_shift(1, (hashes & np.uint64(7)).astype(np.uint8), dtype=np.uint8)


def _short(hashes: Hashes) -> Column:
    return (hashes >> np.uint64(32)).astype(np.uint32)


def _ordered(hashes: Column, numbers: Column) -> tuple[Column, Column]:
    order = hashes.argsort()
    return hashes[order], numbers[order]
