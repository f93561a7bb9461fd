"""Spreadsheets (.xlsx) in parts, read row by row; needs the extra `spreadsheets`."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import Any

from . import parts
from .parts import NDJSON, UNTITLED, Head, Part, ndjson, told_apart

_MISSING = "spreadsheets need the extra `spreadsheets`: pip install 'boltwright[spreadsheets]'"


class SheetSource:
    """The rows of one sheet below its first row that is not empty, which holds the titles."""

    media_type = NDJSON
    unit = " rows"
    delimiter = ","

    def __init__(self, path: Path, sheet: str | None = None, columns: str | None = None) -> None:
        """Open the workbook; without a name its first sheet is read. `columns` maps titles to members.

        Raises:
            ValueError: the extra is not installed, the file is no workbook, or it has no such sheet.
        """
        self.path = path
        self._sheet = sheet
        self._columns = columns
        self._titles_in: int | None = None
        self._mapped: Mapping[str, str] = {}
        self._looked_at: list[int] = []
        book, first = self._open()
        self.total: int | None = first.max_row
        book.close()

    def _open(self) -> tuple[Any, Any]:
        try:
            import openpyxl
        except ImportError:
            raise ValueError(_MISSING) from None
        try:
            book = openpyxl.load_workbook(self.path, read_only=True, data_only=True)
        except OSError:
            raise
        except Exception as error:  # the library lets whatever a broken file makes of it through
            raise ValueError(f"{self.path}: no workbook that can be read ({type(error).__name__})") from None
        names = book.sheetnames
        if self._sheet is not None and self._sheet not in names:
            book.close()
            raise ValueError(f"{self.path}: no sheet {self._sheet!r}; there are {', '.join(map(repr, names))}")
        return book, book[self._sheet or names[0]]

    def __repr__(self) -> str:
        """Say how the file is read."""
        return f"sheet {self._sheet!r} {self._columns!r}"

    @contextmanager
    def _rows(self) -> Iterator[Iterator[tuple[int, Sequence[Any]]]]:
        """Yield the rows that are not empty, with their numbers."""
        book, sheet = self._open()
        try:
            rows = enumerate(sheet.iter_rows(values_only=True), 1)
            yield ((number, cells) for number, cells in rows if any(cell is not None for cell in cells))
        finally:
            book.close()

    def head(self) -> Head:
        """Return the first rows as lines of CSV."""
        text = io.StringIO(newline="")
        writer = csv.writer(text, lineterminator="\n")
        with self._rows() as rows:
            first = list(islice(rows, parts.HEAD_LINES))
        writer.writerows([" ".join(str(_value(cell)).split()) for cell in _bare(cells)] for _, cells in first)
        self._looked_at = [number for number, _ in first]
        query = {"delimiter": "comma", "encoding": "utf-8", **({"columns": self._columns} if self._columns else {})}
        return Head(text.getvalue().encode("utf-8", "replace"), query)

    def begin(self, lines: int | None, delimiter: str, mapped: Mapping[str, str]) -> None:
        """Take note in which row the titles stand, and what they mean."""
        self._mapped = mapped
        self._titles_in = None if lines is None else self._looked_at[lines - 1]

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count rows of the sheet."""
        with self._rows() as rows:
            above = (cells for number, cells in rows if self._titles_in is None or number >= self._titles_in)
            first = next(above, None)
            if first is None:
                return
            titles = _titles(first, self._members())
            filled = ((end, cells) for end, cells in rows if end > behind)
            while part := list(islice(filled, parts.LINES)):
                end = part[-1][0]
                yield Part(ndjson(_row(titles, cells) for _, cells in part), end, end, len(part))

    def _members(self) -> dict[str, str]:
        """Return the members that titles are mapped to, with the units that the service has found in titles."""
        pairs = (pair.rpartition(":") for pair in (self._columns or "").split(",") if pair)
        return {" ".join(title.split()): member.strip() for title, _, member in pairs} | dict(self._mapped)


def _bare(cells: Sequence[Any]) -> list[Any]:
    """Return cells as text or numbers; one that holds nothing is empty."""
    return ["" if cell is None else cell for cell in cells]


def _titles(cells: Sequence[Any], members: Mapping[str, str]) -> list[str]:
    """Return a name for each column: the member that its title is mapped to, else the title."""
    titles = [f"{UNTITLED}{at}" if cell is None else " ".join(str(cell).split()) for at, cell in enumerate(cells, 1)]
    return told_apart(members.get(title, title) for title in titles)


def _row(titles: list[str], cells: Sequence[Any]) -> dict[str, Any]:
    """Every cell that holds something, under its title; a cell beyond the titles is kept too."""
    names = [*titles, *(f"{UNTITLED}{at}" for at in range(len(titles) + 1, len(cells) + 1))]
    return {name: _value(cell) for name, cell in zip(names, cells, strict=False) if cell is not None}


def _value(cell: Any) -> Any:
    """A number as it is stored (60.0 is 60), anything else as text."""
    if isinstance(cell, bool) or not isinstance(cell, int | float):
        return str(cell)
    if isinstance(cell, float):
        if not math.isfinite(cell):
            return str(cell)
        if cell.is_integer() and abs(cell) < 1e15:
            return int(cell)
    return cell
