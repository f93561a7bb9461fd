"""A catalogue file in parts: each is sent on its own, and the run can go on behind any of them.

CSV is cut between rows only, by the rule of the service: a quoted cell may span lines, a stray quote may not.
"""

from __future__ import annotations

import codecs
import csv
import io
import json
from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import IO, Protocol

CSV, NDJSON = "text/csv", "application/x-ndjson"
#: A part ends behind so many lines or bytes, whichever comes first.
LINES, BYTES = 2000, 4 * 1024 * 1024
_SNIFFED = 65_536
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
#: Longer lines no service reads: their start is sent, so that the row comes back and memory stays bounded.
_LONGEST_LINE, _LONGEST_OBJECT = 16 * 1024 * 1024, 8 * 1024 * 1024
_ENDS = ("\n", "\r")
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50


@dataclass(frozen=True, slots=True)
class Part:
    """Rows that follow one another. `end` counts lines or sheet rows from the start, `done` is for the progress."""

    body: bytes
    end: int
    done: int
    query: Mapping[str, str] = field(default_factory=dict)


class Source(Protocol):
    """A file in parts. `total` is what `done` comes to in `unit`, None where it is not known."""

    path: Path
    media_type: str
    unit: str
    total: int | None

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts behind a position at which an earlier part ended."""
        ...


def source_of(
    path: Path,
    encoding: str | None = None,
    delimiter: str | None = None,
    columns: str | None = None,
    sheet: str | None = None,
) -> Source:
    """Return the source for a file, by its suffix: .ndjson or .jsonl, .xlsx or .xlsm, else CSV.

    Raises:
        ValueError: the extra for spreadsheets is not installed, or the workbook has no such sheet.
    """
    suffix = path.suffix.lower()
    if suffix in (".ndjson", ".jsonl"):
        return NdjsonSource(path)
    if suffix in (".xlsx", ".xlsm"):
        from .sheets import SheetSource

        return SheetSource(path, sheet)
    query = {"delimiter": delimiter, "columns": columns}
    return CsvSource(path, encoding, {name: value for name, value in query.items() if value})


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
            self._encoding = encoding or _encoding_of(file.read(_SNIFFED))
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


def _encoding_of(head: bytes) -> str:
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
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
        if len(pending) >= LINES or size >= BYTES:
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


class NdjsonSource:
    """Lines of an NDJSON file; blank ones are no rows."""

    media_type = NDJSON
    unit = "B"

    def __init__(self, path: Path) -> None:
        """Look at the file."""
        self.path = path
        self.total: int | None = path.stat().st_size

    def __repr__(self) -> str:
        """Say how the file is read."""
        return "NDJSON"

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count lines of the file."""
        with self.path.open("rb") as file:
            end = sum(1 for _ in islice(file, behind))
            while lines := _lines(file):
                end += len(lines)
                body = b"".join(lines)
                if body.strip():
                    yield Part(body, end, file.tell())


def _lines(file: IO[bytes]) -> list[bytes]:
    lines: list[bytes] = []
    size = 0
    while len(lines) < LINES and size < BYTES and (line := file.readline(_LONGEST_OBJECT + 1)):
        if not line.endswith(b"\n"):
            while len(line) > _LONGEST_OBJECT and (rest := file.readline(_LONGEST_OBJECT)) and not rest.endswith(b"\n"):
                pass
            line += b"\n"
        lines.append(line)
        size += len(line)
    return lines


def ndjson(rows: Iterable[Mapping[str, object]]) -> bytes:
    """Return rows as the body of an NDJSON part.

    Raises:
        TypeError, ValueError: a row holds what JSON cannot: the message names the value.
    """
    lines = (json.dumps(row, allow_nan=False, ensure_ascii=False) for row in rows)
    return b"".join(line.encode("utf-8", "replace") + b"\n" for line in lines)
