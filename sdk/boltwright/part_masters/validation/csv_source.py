"""A CSV file in parts, cut between rows only, by the rule of the service: a quoted cell may span lines, a stray quote
may not."""

from __future__ import annotations

import csv
import io
from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import IO

from . import parts
from .encodings import codec_of, encoding_of
from .parts import CSV, Head, Part

_SNIFFED = 65_536
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
#: Longer lines no service reads: their start is sent, so that the row comes back and memory stays bounded.
_LONGEST_LINE = 16 * 1024 * 1024
_ENDS = ("\n", "\r")
_MOST_BLANK = 100_000
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50


class CsvSource:
    """Lines of a CSV file, below its titles; every part carries the titles and is UTF-8."""

    media_type = CSV
    unit = "B"

    def __init__(self, path: Path, encoding: str | None = None, query: Mapping[str, str] | None = None) -> None:
        """Look at the file; without an encoding UTF-8 is tried, then Windows-1252.

        Raises:
            ValueError: there is no such encoding.
        """
        self.path = path
        self.total: int | None = path.stat().st_size
        stated = None if encoding is None else codec_of(encoding)
        with path.open("rb") as file:
            self._encoding = encoding_of(file.read(_SNIFFED), stated)
        self._query = {**(query or {}), "encoding": "utf-8"}
        self._titles: int | None = None
        self.delimiter = _DELIMITERS.get(self._query.get("delimiter", ""), "")

    def __repr__(self) -> str:
        """Say how the file is read."""
        return f"CSV {self._encoding[0]} {sorted(self._query.items())}"

    @contextmanager
    def _opened(self) -> Iterator[tuple[IO[bytes], Iterator[str]]]:
        csv.field_size_limit(max(csv.field_size_limit(), 2 * _LONGEST_CELL_LINES * _LONGEST_LINE))
        encoding, errors = self._encoding
        with self.path.open("rb") as raw, io.TextIOWrapper(raw, encoding, errors, newline="") as text:
            yield raw, _lines_of(text)

    def head(self) -> Head:
        """Return the first lines."""
        with self._opened() as (_, lines):
            return Head("".join(_first(lines, parts.HEAD_LINES)).encode("utf-8", "replace"), self._query)

    def begin(self, lines: int | None, delimiter: str, mapped: Mapping[str, str]) -> None:
        """Take note where the rows begin."""
        self._titles, self.delimiter = lines, delimiter

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count lines of the file."""
        with self._opened() as (raw, lines):
            above = _first(lines, 1) if self._titles is None else list(islice(lines, self._titles))
            titles = [line for line in above if line.strip()]
            if not titles:
                return
            header = "".join(titles) + ("" if titles[-1].endswith(_ENDS) else "\n")
            delimiter, end = self.delimiter or max(_DELIMITERS.values(), key=titles[-1].count), len(above)
            end += sum(1 for _ in islice(lines, max(0, behind - end)))
            for group, rows in _grouped(together(lines, delimiter)):
                end += len(group)
                body = "".join([header, *group]).encode("utf-8", "replace")
                yield Part(body, end, raw.tell(), rows, self._query)


def _first(lines: Iterator[str], count: int) -> list[str]:
    """Return lines up to and with the first `count` that are not blank; of a file of blank lines the start."""
    found = []
    for line in lines:
        found.append(line)
        count -= bool(line.strip())
        if count == 0 or len(found) == _MOST_BLANK:
            break
    return found


def _grouped(groups: Iterable[list[str]]) -> Iterator[tuple[list[str], int]]:
    """Join groups of lines until a part is long enough; a group is a row unless it is a blank line."""
    pending: list[str] = []
    size = rows = 0
    for group in groups:
        pending += group
        size += sum(map(len, group))
        rows += len(group) > 1 or bool(group[0].strip("\r\n"))
        if len(pending) >= parts.LINES or size >= parts.BYTES:
            yield pending, rows
            pending, size, rows = [], 0, 0
    if pending:
        yield pending, rows


def together(lines: Iterator[str], delimiter: str) -> Iterator[list[str]]:
    """Yield lines that must not be parted: mostly one; those of a row whose quoted cells span lines together."""
    waiting: deque[str] = deque()
    while True:
        line = waiting.popleft() if waiting else next(lines, None)
        if line is None:
            return
        if '"' not in line or not _goes_on(line, delimiter):
            yield [line]
            continue
        waiting.extend(islice(lines, max(0, _LONGEST_CELL_LINES - len(waiting))))
        taken = _spanned([line, *islice(waiting, _LONGEST_CELL_LINES)], delimiter)
        yield [line, *(waiting.popleft() for _ in range(taken - 1))]


def _goes_on(line: str, delimiter: str) -> bool:
    """Whether a line opens a cell that it does not close: the next line would be read into it."""
    return len(list(csv.reader((line, "\n"), delimiter=delimiter))) < 2


def _spanned(lines: list[str], delimiter: str) -> int:
    """Return how many lines the row takes that begins here; one where its quote is a stray one."""
    reader = csv.reader(lines, delimiter=delimiter, strict=True)
    try:
        next(reader)
    except csv.Error:
        return 1
    return reader.line_num


def _lines_of(text: IO[str]) -> Iterator[str]:
    """Yield lines with their ends; of a line that no memory should hold the start."""
    while line := text.readline(_LONGEST_LINE):
        if len(line) == _LONGEST_LINE and not line.endswith(_ENDS):
            while (rest := text.readline(_LONGEST_LINE)) and not rest.endswith(_ENDS):
                pass
            line += "\n"
        yield line
