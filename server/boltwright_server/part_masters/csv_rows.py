"""CSV as plants export it: unknown delimiter, unknown encoding, stray quotes. No row is ever lost.

A quote that never closes would swallow the rows behind it: such a line is split at its delimiters instead.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Iterator
from itertools import islice
from typing import IO

from .findings import Finding

DELIMITERS = (",", ";", "\t", "|")
_SNIFFED = 65_536
_CHUNK = 512
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50
_LARGEST_CELL = 64 * 1024 * 1024


def text_lines(stream: IO[bytes], encoding: str | None) -> Iterator[str]:
    """Yield the lines of a stream with their ends; bytes that are no text become U+FFFD.

    Without an encoding UTF-8 is tried on the first 64 KiB, then Windows-1252, which plants still export.
    """
    head = stream.read(_SNIFFED)
    decoder = codecs.getincrementaldecoder(encoding or _encoding_of(head))(errors="replace")
    rest = ""
    piece = head
    while piece:
        buffer = io.StringIO(rest + decoder.decode(piece), newline="")
        rest = ""
        for line in buffer:
            if line.endswith("\n"):
                yield line
            else:
                rest = line
        piece = stream.read(_SNIFFED)
    rest += decoder.decode(b"", final=True)
    if rest:
        yield rest


def _encoding_of(head: bytes) -> str:
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    try:
        # The last character may be cut in two.
        codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8-sig"


def delimiter_of(header: str) -> str:
    """Return the delimiter that the header line has most of."""
    return max(DELIMITERS, key=header.count)


def cells(lines: Iterator[str], delimiter: str) -> Iterator[list[str]]:
    """Yield the cells of each row; blank lines are no rows."""
    csv.field_size_limit(_LARGEST_CELL)
    for block, stray in _blocks(lines):
        if stray:
            yield block[0].rstrip("\r\n").split(delimiter)
        else:
            yield from (row for row in csv.reader(block, delimiter=delimiter) if row)


def _blocks(lines: Iterator[str]) -> Iterator[tuple[list[str], bool]]:
    """Yield blocks of whole rows, and single lines with a stray quote, in order."""
    pending: list[str] = []
    waiting: list[str] = []
    while True:
        line = waiting.pop(0) if waiting else next(lines, None)
        if line is None:
            break
        if line.count('"') % 2 == 0:
            pending.append(line)
        else:
            waiting.extend(islice(lines, max(0, _LONGEST_CELL_LINES - len(waiting))))
            closing = next((at for at, one in enumerate(waiting) if one.count('"') % 2), None)
            if closing is not None and _opens_cell(line) and _closes_cell(waiting[closing]):
                pending += [line, *waiting[: closing + 1]]
                del waiting[: closing + 1]
            else:
                yield pending, False
                yield [line], True
                pending = []
        if len(pending) >= _CHUNK:
            yield pending, False
            pending = []
    yield pending, False


def _opens_cell(line: str) -> bool:
    """Whether the last quote of a line stands where a cell begins, as an opening quote does."""
    before = line[: line.rindex('"')].rstrip(" ")
    return not before or before[-1] in DELIMITERS


def _closes_cell(line: str) -> bool:
    """Whether the first quote of a line stands where a cell ends, as a closing quote does."""
    after = line[line.index('"') + 1 :].lstrip(" ")
    return not after or after[0] in (*DELIMITERS, "\r", "\n")


def misfit(found: int, wanted: int) -> tuple[Finding, ...]:
    """Return the finding of a row that has more or fewer cells than the header has columns."""
    if found == wanted:
        return ()
    detail = f"the row has {found} cells under {wanted} columns"
    return (Finding("cells-do-not-fit", "", str(found), str(wanted), detail),)
