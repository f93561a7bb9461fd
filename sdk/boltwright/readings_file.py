"""Readings from a CSV file: one row a piece, one column a characteristic.

The header holds characteristic ids, with a unit in brackets where it is not the standard's: `tensile_load [kN]`. An
empty cell is a piece that was not measured. Yes-or-no results are `true` or `pass`, `false` or `fail`. A column `piece`
numbers the pieces from 1, a column `index` from 0 as an answer does; without either they follow as the rows do. Comma,
semicolon and tab separate; a decimal comma is read where the semicolon or the tab separates.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from .readings import Column, Reading

PIECE, INDEX = "piece", "index"
_HEADER = re.compile(r"\s*([A-Za-z][\w -]*?)\s*(?:\[\s*([^\[\]]+?)\s*\])?\s*")
_NUMBER = re.compile(r"[-+]?(\d+([.,]\d*)?|[.,]\d+)([eE][-+]?\d{1,3})?")
_FLAGS = {"true": True, "pass": True, "false": False, "fail": False}


def read_readings(path: str | Path) -> dict[str, Column]:
    """Return the columns of a CSV file (UTF-8) by characteristic id, ready for `Client.conformance`.

    Raises:
        OSError: the file cannot be opened. ValueError: it cannot be read; the message names line and column.
    """
    return parse_readings(Path(path).read_bytes())


def parse_readings(content: bytes) -> dict[str, Column]:
    """Return the columns of the bytes of a CSV file, as `read_readings` does.

    Raises:
        ValueError: it cannot be read; the message names line and column.
    """
    try:
        text = content.decode("utf-8-sig").lstrip("\ufeff")
    except UnicodeDecodeError as error:
        raise ValueError(f"the file is not UTF-8 (byte {error.start})") from None
    separator = max(";\t,", key=text.partition("\n")[0].count)
    lines = _lines(text, separator)
    if not lines:
        raise ValueError("the file is empty; its first line names the characteristics")
    headers = [header_read(cell, at) for at, cell in enumerate(lines[0][1], 1)]
    rows = lines[1:]
    _check_shape(headers, rows)
    columns = {
        id: cells_read(id, [(f"line {line}", cells[at]) for line, cells in rows], separator)
        for at, (id, _) in enumerate(headers)
    }
    pieces = _pieces(columns, rows)
    units = dict(headers)
    return {id: Column(values, unit=units[id], pieces=pieces) for id, values in columns.items()}


def _lines(text: str, separator: str) -> list[tuple[int, list[str]]]:
    """Return (line number, cells) of every line that is not blank."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        return [(reader.line_num, [cell.strip() for cell in cells]) for cells in reader if cells]
    except csv.Error as error:
        raise ValueError(f"line {reader.line_num}: {error}") from None


def header_read(cell: str, at: int) -> tuple[str, str | None]:
    """Return characteristic id and unit of a heading such as `tensile_load [kN]`.

    Raises:
        ValueError: it is no such heading.
    """
    found = _HEADER.fullmatch(cell)
    if found is None:
        raise ValueError(f"line 1, column {at}: {cell!r} is no characteristic id, as length or tensile_load [N]")
    return re.sub(r"[ -]+", "_", found[1].lower()), found[2]


def _check_shape(headers: list[tuple[str, str | None]], rows: list[tuple[int, list[str]]]) -> None:
    ids = [id for id, _ in headers]
    if repeated := sorted({id for id in ids if ids.count(id) > 1}):
        raise ValueError(f"line 1: {repeated[0]} stands there twice")
    for line, cells in rows:
        if len(cells) != len(headers):
            raise ValueError(f"line {line} has {len(cells)} cells, the header has {len(headers)}")
    if not rows:
        raise ValueError("no readings below the header")


def cells_read(id: str, cells: Sequence[tuple[str, str]], separator: str = ";") -> list[Reading]:
    """Return the readings of (place, text) cells: one kind a column, and the first reading says which.

    Raises:
        ValueError: a cell is no number, flag or word; the message names its place.
    """
    first = next((cell for _, cell in cells if cell), "")
    read: Callable[[str, str], Reading] = _word
    if _NUMBER.fullmatch(first):
        read = partial(_number, separator=separator)
    elif first.lower() in _FLAGS:
        read = _flag
    return [read(cell, f"{place}, {id}") if cell else None for place, cell in cells]


def _number(cell: str, where: str, separator: str) -> float:
    if not _NUMBER.fullmatch(cell):
        raise ValueError(f"{where}: {cell!r} is no number; leave the cell empty where nothing was measured")
    if "," in cell and separator == ",":
        raise ValueError(f"{where}: {cell!r} has a comma; write a decimal point, or separate the cells by semicolons")
    return float(cell.replace(",", "."))


def _flag(cell: str, where: str) -> bool:
    flag = _FLAGS.get(cell.lower())
    if flag is None:
        raise ValueError(f"{where}: {cell!r} is none of {', '.join(_FLAGS)}")
    return flag


def _word(cell: str, where: str) -> str:
    if not re.fullmatch(r"[A-Za-z_ ]+", cell):
        raise ValueError(f"{where}: {cell!r} is no number, no result such as pass or fail, and no word such as thread")
    return cell.lower().replace(" ", "_")


def _pieces(columns: dict[str, list[Reading]], rows: list[tuple[int, list[str]]]) -> list[int]:
    """Return the indexes of the pieces, taking out the column that numbers them."""
    named = [name for name in (PIECE, INDEX) if name in columns]
    if len(named) > 1:
        raise ValueError(f"line 1: {PIECE} (from 1) and {INDEX} (from 0) both number the pieces: keep one")
    if not named:
        return list(range(len(rows)))
    first = 1 if named == [PIECE] else 0
    numbers = columns.pop(named[0])
    for (line, _), number in zip(rows, numbers, strict=True):
        if not isinstance(number, float) or not number.is_integer() or number < first:
            raise ValueError(f"line {line}, {named[0]}: a whole number from {first}")
    return [int(number) - first for number in numbers if isinstance(number, float)]
