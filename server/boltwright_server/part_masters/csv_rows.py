"""CSV as plants export it: unknown delimiter, unknown encoding, stray quotes. No row is ever lost.

A quote that never closes would swallow the rows behind it: such a line is split at its delimiters instead.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator
from itertools import chain
from typing import IO, NamedTuple

from .findings import Finding

DELIMITERS = (",", ";", "\t", "|")
_SNIFFED = 65_536
_PIECE = 256 * 1024
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50
#: Characters of a line; what stands behind them is not kept, the row comes back all the same.
LONGEST_LINE = 2 * 1024 * 1024
_CLOSING = "\n"
Row = list[str]


class CsvTable(NamedTuple):
    """A CSV text as it is read: `blocks` yields its rows, some thousand at once; blank lines are no rows."""

    titles: Row
    delimiter: str
    blocks: Iterator[list[Row]]

    @property
    def rows(self) -> Iterator[Row]:
        """The rows one by one."""
        return chain.from_iterable(self.blocks)


def open_table(stream: IO[bytes], encoding: str | None, delimiter: str | None) -> CsvTable | None:
    """Return the titles and rows of a CSV text, or None where it holds no header line.

    Without an encoding UTF-8 is tried on the first 64 KiB, then Windows-1252, which plants still export.
    """
    blocks = line_blocks(stream, encoding)
    for lines in blocks:
        at = next((at for at, line in enumerate(lines) if line.strip()), None)
        if at is not None:
            separator = delimiter or delimiter_of(lines[at])
            titles = next(csv.reader([lines[at]], delimiter=separator))
            return CsvTable(titles, separator, row_blocks(chain((lines[at + 1 :],), blocks), separator))
    return None


def line_blocks(stream: IO[bytes], encoding: str | None) -> Iterator[list[str]]:
    """Yield the lines of a stream with their ends, some thousand at once; bytes that are no text become U+FFFD."""
    piece = stream.read(_SNIFFED)
    decoder = codecs.getincrementaldecoder(_encoding_of(piece, encoding))(errors="replace")
    begun, length = [], 0
    while piece:
        text = decoder.decode(piece)
        piece = stream.read(_PIECE)
        if "\n" not in text and "\r" not in text:
            begun.append(text[: max(0, LONGEST_LINE - length)])
            length += len(text)
            continue
        lines = list(io.StringIO("".join((*begun, text)), newline=""))
        # The last line may go on, and a carriage return be the first half of an end of line.
        begun = [] if lines[-1].endswith("\n") else [lines.pop()]
        length = sum(map(len, begun))
        yield lines
    begun.append(decoder.decode(b"", final=True))
    yield list(io.StringIO("".join(begun), newline=""))


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


def delimiter_of(header: str) -> str:
    """Return the delimiter that the header line has most of."""
    return max(DELIMITERS, key=header.count)


def row_blocks(blocks: Iterator[list[str]], delimiter: str) -> Iterator[list[Row]]:
    """Yield the rows of blocks of lines, in order."""
    csv.field_size_limit(2 * _LONGEST_CELL_LINES * LONGEST_LINE)
    waiting: list[str] = []
    for lines in blocks:
        rows, waiting = _rows_of([*waiting, *lines], delimiter, more=True)
        yield rows
    yield _rows_of(waiting, delimiter, more=False)[0]


def _rows_of(lines: list[str], delimiter: str, more: bool) -> tuple[list[Row], list[str]]:
    """Return rows, and the lines that have to wait for those behind them."""
    rows = _one_a_line(lines, delimiter)
    if rows is not None:
        return rows, []
    rows, done, at = [], 0, 0
    while at < len(lines):
        if _closes(lines[at], delimiter):
            at += 1
            continue
        rows += _one_a_line(lines[done:at], delimiter) or []
        window = lines[at : at + _LONGEST_CELL_LINES + 1]
        if more and len(window) <= _LONGEST_CELL_LINES:
            return rows, lines[at:]
        row, taken = _over_lines(window, delimiter)
        rows.append(row)
        done = at = at + taken
    return rows + (_one_a_line(lines[done:], delimiter) or []), []


def _one_a_line(lines: list[str], delimiter: str) -> list[Row] | None:
    """Return the rows of lines that each hold one, or None where a line opens a cell that it does not close."""
    rows = list(csv.reader(chain(lines, (_CLOSING,)), delimiter=delimiter))
    if len(rows) <= len(lines):
        return None
    return [row for row in rows if row]


def _closes(line: str, delimiter: str) -> bool:
    return '"' not in line or _one_a_line([line], delimiter) is not None


def _over_lines(lines: list[str], delimiter: str) -> tuple[Row, int]:
    """Return the row that begins with a cell over several lines, and how many; one line where its quote is stray."""
    reader = csv.reader(lines, delimiter=delimiter, strict=True)
    try:
        return next(reader), reader.line_num
    except csv.Error:
        return lines[0].rstrip("\r\n").split(delimiter), 1


def misfit(found: int, wanted: int) -> tuple[Finding, ...]:
    """Return the finding of a row that has more or fewer cells than the header has columns."""
    if found == wanted:
        return ()
    detail = f"the row has {found} cells under {wanted} columns"
    return (Finding("cells-do-not-fit", "", str(found), str(wanted), detail),)
