"""Reads a folder of facts and refuses it, naming file and row, unless every number in it has its reference."""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from ..quantities.basis import CHECKED_WORDS
from .table import Cell, KeyCell, Row, Standard, Table

#: The short marks of a `.checked.csv` file.
MARKS = {
    "": "",
    "O": "original",
    "2R": "two reproductions",
    "1R+F": "one reproduction and formula",
    "F": "formula",
    "1R": "one reproduction",
    "M": "memory",
    "C": "conflict",
}
NOT_STANDARDISED = "-"
_STANDARD_MEMBERS = {"id": str, "edition": str, "title": str, "family": str, "table": list}
_STANDARD_OPTIONS = {"note": str, "note_of": dict, "product": list, "also": list, "clauses": dict}
_TABLE_MEMBERS = {"file": str, "printed_as": str, "content": str, "unit": str, "key": list, "checked": str}
_TABLE_OPTIONS = {
    "note": str,
    "text": list,
    "ordered": bool,
    "units": dict,
    "columns_checked": dict,
    "withheld": dict,
}
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


class BadFacts(ValueError):
    """A folder of facts that may not be served; the message names file and row."""


def load_standard(folder: Path) -> Standard:
    """Read `standard.toml` and every table that it names.

    Raises:
        BadFacts: a member is missing, unknown or of the wrong kind; a table has no such file, a duplicate or unknown
            column, an empty cell, a row out of order or twice, or a minimum above its maximum.
    """
    path = folder / "standard.toml"
    try:
        entries = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BadFacts(f"{folder.name}/standard.toml: {error}") from error
    where = f"{folder.name}/standard.toml"
    _check_members(entries, _STANDARD_MEMBERS, _STANDARD_OPTIONS, where)
    standard = Standard(
        folder.name,
        entries["id"],
        entries["edition"],
        entries["title"],
        entries["family"],
        entries.get("note"),
        tuple(_product_entries(entries.get("product", []), where)),
        note_of=entries.get("note_of", {}),
        also=tuple(map(str, entries.get("also", ()))),
        clauses=_clauses(entries.get("clauses", {}), where),
    )
    for number, entry in enumerate(entries["table"], start=1):
        _check_members(entry, _TABLE_MEMBERS, _TABLE_OPTIONS, f"{where}, table {number}")
        if entry["file"] in standard.tables:
            raise BadFacts(f"{where}, table {number}: {entry['file']} is named twice")
        standard.tables[entry["file"]] = _load_table(standard, entry, folder)
    return standard


def _product_entries(entries: list[Any], where: str) -> list[dict[str, Any]]:
    if not all(isinstance(entry, dict) for entry in entries):
        raise BadFacts(f"{where}: 'product' is a list of tables, [[product]]")
    return entries


def _clauses(entries: dict[str, Any], where: str) -> dict[str, str]:
    for name, mark in entries.items():
        _check_mark(mark, f"{where}, clauses, {name}")
    return entries


def _check_members(entry: dict[str, Any], needed: Mapping[str, type], options: Mapping[str, type], where: str) -> None:
    for member, kind in needed.items():
        if not entry.get(member):
            raise BadFacts(f"{where}: {member!r} is missing")
        if not isinstance(entry[member], kind):
            raise BadFacts(f"{where}: {member!r} is not a {kind.__name__}")
    for member in entry:
        if member not in needed and member not in options:
            raise BadFacts(f"{where}: unknown member {member!r}; known: {', '.join([*needed, *options])}")
    if "checked" in needed:
        _check_mark(entry["checked"], where)
        for column, mark in entry.get("columns_checked", {}).items():
            _check_mark(mark, f"{where}, columns_checked, {column}")


def _check_mark(mark: str, where: str) -> None:
    if mark not in CHECKED_WORDS:
        raise BadFacts(f"{where}: checked = {mark!r} is not one of {', '.join(CHECKED_WORDS)}")


def _load_table(standard: Standard, entry: dict[str, Any], folder: Path) -> Table:
    table = Table(
        standard,
        entry["file"],
        entry["printed_as"],
        entry["content"],
        entry["unit"],
        tuple(entry["key"]),
        entry["checked"],
        entry.get("note"),
        entry.get("units", {}),
        entry.get("columns_checked", {}),
        withheld=entry.get("withheld", {}),
    )
    header, lines = _read_csv(folder / entry["file"])
    table.columns = tuple(header)
    text = set(entry.get("text", ()))
    for named in [*table.key, *text, *table.units, *table.columns_checked, *table.withheld]:
        if named not in header:
            raise BadFacts(f"{table.where}: there is no column {named!r}")
    marks = _load_marks(table, folder, text)
    for line, cells in lines:
        row = _row(table, line, dict(zip(header, cells, strict=True)), text, marks)
        if row.key in table.rows:
            raise BadFacts(f"{table.where}, row {line}: key {row.key} stands there twice")
        table.rows[row.key] = row
    if entry.get("ordered", True):
        _check_order(table)
    table.index_bands()
    return table


def _read_csv(path: Path) -> tuple[list[str], list[tuple[int, list[str]]]]:
    where = f"{path.parent.name}/{path.name}"
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            lines = [[cell.strip() for cell in line] for line in csv.reader(file)]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise BadFacts(f"{where}: {error}") from error
    if len(lines) < 2:
        raise BadFacts(f"{where}: a table needs a header and a row")
    header, rows = lines[0], lines[1:]
    if len(set(header)) != len(header) or "" in header:
        raise BadFacts(f"{where}, row 1: a column is named twice or not at all")
    for number, cells in enumerate(rows, start=2):
        if len(cells) != len(header):
            raise BadFacts(f"{where}, row {number}: {len(cells)} cells under {len(header)} columns")
    return header, list(enumerate(rows, start=2))


def _load_marks(table: Table, folder: Path, text: set[str]) -> dict[tuple[KeyCell, ...], dict[str, str]]:
    path = folder / f"{table.file.removesuffix('.csv')}.checked.csv"
    if not path.exists():
        return {}
    header, lines = _read_csv(path)
    if tuple(header) != table.columns:
        raise BadFacts(f"{folder.name}/{path.name}, row 1: the columns are not those of {table.file}")
    marks = {}
    for number, cells in lines:
        by_name = dict(zip(header, cells, strict=True))
        key = _key(table, by_name, text)
        for name in table.key:
            del by_name[name]
        if unknown := [mark for mark in by_name.values() if mark not in MARKS]:
            raise BadFacts(f"{folder.name}/{path.name}, row {number}: unknown mark {unknown[0]!r}")
        marks[key] = {name: MARKS[mark] for name, mark in by_name.items() if mark}
    return marks


def _row(
    table: Table,
    line: int,
    cells: dict[str, str],
    text: set[str],
    marks: dict[tuple[KeyCell, ...], dict[str, str]],
) -> Row:
    where = f"{table.where}, row {line}"
    if empty := [name for name, cell in cells.items() if not cell]:
        raise BadFacts(f"{where}: {empty[0]} is empty; write {NOT_STANDARDISED!r} where the standard gives no value")
    key = _key(table, cells, text)
    values: dict[str, Cell] = {}
    for name, cell in cells.items():
        values[name] = cell if name in text else _cell(cell, name in table.key, f"{where}, {name}")
    for name, low in values.items():
        high = values.get(f"{name.removesuffix('_min')}_max") if name.endswith("_min") else None
        if isinstance(low, Decimal) and isinstance(high, Decimal) and low > high:
            raise BadFacts(f"{where}: {name} {low} exceeds its maximum {high}")
    return Row(table, key, values, marks.get(key, {}))


def _key(table: Table, cells: dict[str, str], text: set[str]) -> tuple[KeyCell, ...]:
    return tuple(cells[name] if name in text else _key_cell(cells[name]) for name in table.key)


def _key_cell(cell: str) -> KeyCell:
    try:
        return Decimal(cell)
    except InvalidOperation:
        return cell


def _cell(cell: str, is_key: bool, where: str) -> Cell:
    if cell == NOT_STANDARDISED:
        return None
    try:
        number = Decimal(cell)
    except InvalidOperation:
        if is_key:
            return cell
        raise BadFacts(f"{where}: {cell!r} is not a number") from None
    if not number.is_finite():
        raise BadFacts(f"{where}: {cell!r} is not a number")
    return number


def _check_order(table: Table) -> None:
    before: tuple[Decimal, ...] = ()
    for key in table.rows:
        numbers = tuple(
            part if isinstance(part, Decimal) else Decimal(text)
            for part in key
            for text in ([""] if isinstance(part, Decimal) else _NUMBER.findall(part))
        )
        if numbers < before:
            raise BadFacts(f"{table.where}: row {key} is out of order")
        before = numbers
