"""CSV as plants export it: unknown delimiter, unknown encoding, lines above the titles, stray quotes. No row is lost.

A quote that never closes would swallow the rows behind it: such a line is split at its delimiters instead.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Callable, Iterator
from itertools import chain, dropwhile
from typing import IO, NamedTuple

from ..meaning.findings import Finding
from .encodings import encoding_of

DELIMITERS = (",", ";", "\t", "|")
_SNIFFED = 65_536
_PIECE = 256 * 1024
#: Lines that one quoted cell may span before its opening quote counts as a stray one.
_LONGEST_CELL_LINES = 50
#: Characters of a line; what stands behind them is not kept, the row comes back all the same.
LONGEST_LINE = 2 * 1024 * 1024
_CLOSING = "\n"
#: The titles are looked for among so many lines that are not blank, of so many; a later line is the header where it
#: holds so many known titles.
_LOOKED_AT, _LINES_ABOVE, _FEWEST_KNOWN = 20, 1000, 2
_SEPARATOR = re.compile(r'\s*"?sep=([,;|\t])"?[\s,;|]*', re.IGNORECASE)
#: A file that was converted twice has two marks; the first one may have been read as Windows-1252.
_FURTHER_MARKS = re.compile("\\A(?:\\ufeff|\u00ef\u00bb\u00bf)+")
Row = list[str]


class CsvTable(NamedTuple):
    """A CSV text as it is read: `blocks` yields its rows, some thousand at once; blank lines are no rows.

    `head_lines` is the number of lines before the first row, titles included; `candidates` are the lines that may have
    been meant as titles, where none of them is known.
    """

    titles: Row
    delimiter: str
    blocks: Iterator[list[Row]]
    head_lines: int = 1
    candidates: tuple[Row, ...] = ()

    @property
    def rows(self) -> Iterator[Row]:
        """The rows one by one."""
        return chain.from_iterable(self.blocks)


def open_table(
    stream: IO[bytes], encoding: str | None, delimiter: str | None, knows: Callable[[str], int] = lambda title: 1
) -> CsvTable | None:
    """Return the titles and rows of a CSV text, or None where it holds no header line.

    Args:
        encoding: the codec that is stated, see `encodings`.
        knows: 1 for a title that means something, 2 for one that the client has named, else 0; lines above one that
            holds such titles are no header.
    """
    csv.field_size_limit(2 * _LONGEST_CELL_LINES * LONGEST_LINE)
    blocks = line_blocks(stream, encoding)
    blank, begun = _begun(blocks)
    if not begun:
        return None
    stated = _SEPARATOR.fullmatch(begun[0])
    if stated is not None:
        # What spreadsheets write above the titles to name the delimiter.
        delimiter = delimiter or stated[1]
    head = _head_of(begun, 0 if stated is None else 1, delimiter, knows)
    if head is None:
        return None
    rest = chain((begun[head.lines :],), blocks)
    return CsvTable(head.titles, head.separator, row_blocks(rest, head.separator), blank + head.lines, head.candidates)


def _begun(blocks: Iterator[list[str]]) -> tuple[int, list[str]]:
    """Return how many blank lines the text begins with, and the lines behind them that hold its titles."""
    blank = 0
    begun: list[str] = []
    for lines in blocks:
        if not begun:
            behind = list(dropwhile(lambda line: not line.strip(), lines))
            blank += len(lines) - len(behind)
            lines = behind
        begun += lines
        if len(begun) >= _LINES_ABOVE or sum(1 for line in begun if line.strip()) >= _LOOKED_AT:
            break
    return blank, begun


class _Head(NamedTuple):
    titles: Row
    separator: str
    lines: int
    candidates: tuple[Row, ...] = ()


def _head_of(lines: list[str], start: int, delimiter: str | None, knows: Callable[[str], int]) -> _Head | None:
    """Return the line of titles: the first that is not blank, unless only a later one holds titles that are known.

    Above the titles plants write the company, the date, the query. A row that happens to hold the name of a member in
    one cell is no header.
    """
    first, at, looked_at = None, start, 0
    candidates = []
    while at < min(len(lines), _LINES_ABOVE) and looked_at < _LOOKED_AT:
        if not lines[at].strip():
            at += 1
            continue
        titles, separator, taken, _ = _titles_at(lines, at, delimiter)
        at, looked_at = at + taken, looked_at + 1
        named = [title for title in titles if title]
        known = sum(map(knows, named))
        if known and (first is None or known >= _FEWEST_KNOWN or known == len(named)):
            return _Head(titles, separator, at)
        first = first or _Head(titles, separator, at)
        candidates.append(titles)
    return None if first is None else first._replace(candidates=tuple(candidates))


def _titles_at(lines: list[str], at: int, stated: str | None) -> _Head:
    """Return the titles that begin in a line, and how many lines they take: a title in quotes may hold a line break."""
    separator = stated or delimiter_of(lines[at])
    if _closes(lines[at], separator):
        cells, taken = next(csv.reader([lines[at]], delimiter=separator)), 1
    else:
        window = lines[at : at + _LONGEST_CELL_LINES + 1]
        separator = stated or max(DELIMITERS, key=lambda one: len(_over_lines(window, one)[0]))
        cells, taken = _over_lines(window, separator)
    return _Head([" ".join(cell.split()) for cell in cells], separator, taken)


def line_blocks(stream: IO[bytes], encoding: str | None) -> Iterator[list[str]]:
    """Yield the lines of a stream with their ends, some thousand at once; bytes that are no text become U+FFFD."""
    piece = stream.read(_SNIFFED)
    codec, errors = encoding_of(piece, encoding)
    decoder = codecs.getincrementaldecoder(codec)(errors)
    begun, length = [], 0
    first = True
    while piece:
        text = decoder.decode(piece)
        if first:
            text, first = _FURTHER_MARKS.sub("", text), False
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


def delimiter_of(header: str) -> str:
    """Return the delimiter that the header line has most of."""
    return max(DELIMITERS, key=header.count)


def row_blocks(blocks: Iterator[list[str]], delimiter: str) -> Iterator[list[Row]]:
    """Yield the rows of blocks of lines, in order."""
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
