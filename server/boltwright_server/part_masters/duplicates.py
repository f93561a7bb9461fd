"""Has this been seen before? Exact, over streams of any length, in eight bytes of memory a row.

Of old keys only 32 bits of a hash and a place are kept in memory, in sorted runs; the words themselves lie in a
temporary file and are compared before anything is called a duplicate. Keys are asked for in blocks: whatever is done
for every one of them is then done by `map`, `zip` and numpy, which is what makes it cheap.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from types import TracebackType
from typing import NamedTuple, Self

import numpy as np
import numpy.typing as npt

_RUN = 32_768
_MERGED_RUN = 8 * _RUN
#: Keys that came back are remembered up to this many: they tend to come back again.
_REPEATED = 8192
_FILTER_BITS = 1 << 25
#: Entries of the temporary file start on multiples of this, so that 32 bits reach 32 GiB.
_STEP = 8
#: What ends an entry, by the bytes that it has over a multiple of `_STEP`: a byte that UTF-8 never has.
_END = b"\xff"
_ENDS = tuple(_END * (_STEP - over) for over in range(_STEP))
_READ = 256
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
        self._recent: dict[str, tuple[int, str]] = {}
        self._repeated: dict[str, First] = {}
        self._runs: list[tuple[Column, Column]] = []
        self._filter = np.zeros(_FILTER_BITS // 8, dtype=np.uint8)
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

    def firsts(self, keys: Sequence[str], rows: Sequence[int], labels: Sequence[str]) -> dict[int, First]:
        """Return the first occurrence of every key that occurred before, by the row that has it now.

        The others are remembered. The keys stand in the order of their rows, each row is asked for once.
        """
        found = self._of_runs(keys, rows) if self._runs else {}
        entries = list(zip(rows, labels, strict=True))
        if found:
            keys = [key for key, row in zip(keys, rows, strict=True) if row not in found]
            entries = [entry for entry in entries if entry[0] not in found]
        # Which of two equal entries a dictionary holds tells whether the key is new.
        for entry, known in zip(entries, map(self._recent.setdefault, keys, entries), strict=True):
            if known is not entry:
                found[entry[0]] = First(*known)
        if len(self._recent) >= _RUN:
            self._spill()
        return found

    def _of_runs(self, keys: Sequence[str], rows: Sequence[int]) -> dict[int, First]:
        """Return what `firsts` returns for the keys that lie in the file."""
        found = {}
        for at, places in self._perhaps(keys).items():
            key = keys[at]
            first = self._repeated.get(key) or self._in_file(key, places)
            if first is not None:
                found[rows[at]] = first
        return found

    def _perhaps(self, keys: Sequence[str]) -> dict[int, list[int]]:
        """Return the places in the file that hold a key of the same hash, by the place of the key."""
        hashes = _hashes(keys)
        asked = np.flatnonzero(self._filter[_byte(hashes)] & _bit(hashes))
        found: dict[int, list[int]] = {}
        if len(asked):
            short = _short(hashes[asked])
            for numbers, places in self._runs:
                low, high = numbers.searchsorted(short), numbers.searchsorted(short, side="right")
                for hit in np.flatnonzero(low < high):
                    found.setdefault(int(asked[hit]), []).extend(places[low[hit] : high[hit]].tolist())
        return found

    def _in_file(self, key: str, places: list[int]) -> First | None:
        for place in places:
            stored, first = self._stored(place * _STEP)
            if stored == key:
                if len(self._repeated) >= _REPEATED:
                    self._repeated.clear()
                self._repeated[key] = first
                return first
        return None

    def _stored(self, at: int) -> tuple[str, First]:
        self._file.seek(at)
        entry = b""
        while _END not in entry:
            entry += self._file.read(_READ)
        row, label_length, words = entry[: entry.index(_END)].decode("utf-8", "surrogatepass").split("\x1f", 2)
        return words[int(label_length) :], First(int(row), words[: int(label_length)])

    def _spill(self) -> None:
        """Move the recent keys into the file and a sorted run, and merge small runs into one."""
        hashes = _hashes(list(self._recent))
        np.bitwise_or.at(self._filter, _byte(hashes), _bit(hashes))
        entries = list(_entries(self._recent))
        ends = self._end + np.cumsum(np.fromiter(map(len, entries), np.int64, len(entries)))
        places = np.concatenate(([self._end], ends[:-1])) // _STEP
        self._file.seek(0, 2)
        self._file.write(b"".join(entries))
        self._end = int(ends[-1])
        self._recent = {}
        self._runs.append(_ordered(_short(hashes), places.astype(np.uint32)))
        small = [run for run in self._runs if len(run[0]) < _MERGED_RUN]
        if sum(len(run[0]) for run in small) >= _MERGED_RUN:
            merged = _ordered(np.concatenate([run[0] for run in small]), np.concatenate([run[1] for run in small]))
            self._runs = [run for run in self._runs if len(run[0]) >= _MERGED_RUN] + [merged]


def _entries(recent: dict[str, tuple[int, str]]) -> Iterator[bytes]:
    """Yield the entries of the file; the label may hold any character, so its length goes before it."""
    for key, (row, label) in recent.items():
        line = f"{row}\x1f{len(label)}\x1f{label}{key}".encode("utf-8", "surrogatepass")
        yield line + _ENDS[len(line) % _STEP]


def _hashes(keys: Sequence[str]) -> Hashes:
    return np.fromiter(map(hash, keys), np.int64, len(keys)).view(np.uint64)


def _byte(hashes: Hashes) -> npt.NDArray[np.int64]:
    """Return the byte of the filter that belongs to each hash."""
    return ((hashes & np.uint64(_FILTER_BITS - 1)) >> np.uint64(3)).astype(np.int64)


def _bit(hashes: Hashes) -> npt.NDArray[np.uint8]:
    return np.left_shift(1, (hashes & np.uint64(7)).astype(np.uint8), dtype=np.uint8)


def _short(hashes: Hashes) -> Column:
    return (hashes >> np.uint64(32)).astype(np.uint32)


def _ordered(numbers: Column, places: Column) -> tuple[Column, Column]:
    order = numbers.argsort()
    return numbers[order], places[order]
