"""Spreadsheets (.xlsx) in parts, read row by row; needs the extra `spreadsheets`."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import Any

from . import parts
from .parts import NDJSON, Part, ndjson

_MISSING = "spreadsheets need the extra `spreadsheets`: pip install 'boltwright[spreadsheets]'"


class SheetSource:
    """The rows of one sheet below its first row that is not empty, which holds the titles."""

    media_type = NDJSON
    unit = " rows"

    def __init__(self, path: Path, sheet: str | None = None) -> None:
        """Open the workbook; without a name its first sheet is read.

        Raises:
            ValueError: the extra is not installed, the file is no workbook, or it has no such sheet.
        """
        self.path = path
        self._sheet = sheet
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
        return f"sheet {self._sheet!r}"

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count rows of the sheet."""
        book, sheet = self._open()
        try:
            rows = enumerate(sheet.iter_rows(values_only=True), 1)
            titles = next((_titles(cells) for _, cells in rows if any(cell is not None for cell in cells)), None)
            if titles is None:
                return
            filled = ((end, cells) for end, cells in rows if end > behind and any(cell is not None for cell in cells))
            while part := list(islice(filled, parts.LINES)):
                end = part[-1][0]
                yield Part(ndjson(_row(titles, cells) for _, cells in part), end, end)
        finally:
            book.close()


def _titles(cells: Sequence[Any]) -> list[str]:
    return [f"column {at}" if cell is None else str(cell).strip() for at, cell in enumerate(cells, 1)]


def _row(titles: list[str], cells: Sequence[Any]) -> dict[str, Any]:
    """Every cell that holds something, under its title; a cell beyond the titles is kept too."""
    names = [*titles, *(f"column {at}" for at in range(len(titles) + 1, len(cells) + 1))]
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
