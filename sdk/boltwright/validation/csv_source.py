"""A CSV file in parts, cut between rows only, by the rule of the service: a quoted cell may span lines, a stray quote
may not."""

from __future__ import annotations

import codecs
import csv
import io
from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from pathlib import Path
from typing import IO

from . import parts
from .parts import CSV, Part

_SNIFFED = 65_536
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
#: Longer lines no service reads: their start is sent, so that the row comes back and memory stays bounded.
_LONGEST_LINE = 16 * 1024 * 1024
_ENDS = ("\n", "\r")
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50


class CsvSource:
    """Lines of a CSV file, below its header; every part carries the header and is UTF-8."""

    media_type = CSV
    unit = "B"

    def __init__(self, path: Path, encoding: str | None = None, query: Mapping[str, str] | None = None) -> None:
        """Look at the file; without an encoding UTF-8 is tried on its start, then Windows-1252.

        Raises:
            ValueError: there is no such encoding.
        """
        self.path = path
        self.total: int | None = path.stat().st_size
        with path.open("rb") as file:
            self._encoding = _encoding_of(file.read(_SNIFFED), encoding)
        try:
            codecs.lookup(self._encoding)
        except LookupError:
            raise ValueError(f"there is no encoding {encoding!r}; try utf-8, utf-16, cp1252 or latin-1") from None
        self._query = {**(query or {}), "encoding": "utf-8"}
        self._delimiter = _DELIMITERS.get(self._query.get("delimiter", ""))

    def __repr__(self) -> str:
        """Say how the file is read."""
        return f"CSV {self._encoding} {sorted(self._query.items())}"

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count lines of the file."""
        csv.field_size_limit(max(csv.field_size_limit(), 2 * _LONGEST_CELL_LINES * _LONGEST_LINE))
        with self.path.open("rb") as raw, io.TextIOWrapper(raw, self._encoding, "replace", newline="") as text:
            lines = _lines_of(text)
            end, header = _header(lines)
            if header is None:
                yield Part(b"", 0, raw.tell(), self._query)
                return
            delimiter = self._delimiter or max(_DELIMITERS.values(), key=header.count)
            for _ in islice(lines, max(0, behind - end)):
                end += 1
            for group in _grouped(together(lines, delimiter)):
                end += len(group)
                yield Part("".join([header, *group]).encode(), end, raw.tell(), self._query)


def _header(lines: Iterator[str]) -> tuple[int, str | None]:
    """Return how many lines the first one that is not blank ends, and that line with an end of its own."""
    for number, line in enumerate(lines, 1):
        if line.strip():
            return number, line if line.endswith(_ENDS) else f"{line}\n"
    return 0, None


def _encoding_of(head: bytes, stated: str | None = None) -> str:
    """Return the stated encoding, or the likeliest; UTF-16 without a mark is told by its zeros."""
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return stated or "utf-16"
    if stated == "utf-16" or (stated is None and b"\0" in head[:2]):
        return "utf-16-be" if head[:1] == b"\0" else "utf-16-le"
    if stated is not None:
        return stated
    try:
        # The last character may be cut in two.
        codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8-sig"


def _grouped(groups: Iterable[list[str]]) -> Iterator[list[str]]:
    """Join groups of lines until a part is long enough."""
    pending: list[str] = []
    size = 0
    for group in groups:
        pending += group
        size += sum(map(len, group))
        if len(pending) >= parts.LINES or size >= parts.BYTES:
            yield pending
            pending, size = [], 0
    if pending:
        yield pending


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
