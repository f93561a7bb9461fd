"""Rows that repeat a part number or a requirement of an earlier one, over all parts of a catalogue.

The service finds them within one request; across requests they are found here, by the same rule and in the same words.
What was seen lies in an SQLite file, so that memory stays bounded and a run can go on where it stopped.
"""

from __future__ import annotations

import sqlite3
from typing import Any

from .answers import Row

_TABLES = """
create table if not exists part_numbers (key text primary key, row integer not null) without rowid;
create table if not exists requirements (key text primary key, row integer not null, label text not null) without rowid;
"""


class Repeats:
    """Remembers the first row of every part number and requirement in a database of the caller."""

    def __init__(self, database: sqlite3.Connection) -> None:
        """Make the tables unless they are there; committing is the caller's matter."""
        self._database = database
        database.executescript(_TABLES)

    def mark(self, row: Row) -> Row:
        """Add the finding of a row that repeats an earlier one, and take its `requirement` out; rows come in order."""
        found = self._finding(row["part_number"], row.pop("requirement", ""), row["row"])
        if found is not None:
            row["findings"].append(found)
            row["status"] = _status(row["findings"])
        return row

    def _finding(self, part_number: str, requirement: str, row: int) -> dict[str, Any] | None:
        if part_number:
            before = self._first("part_numbers", _text(part_number), (row,))
            if before is not None:
                detail = f"part number {part_number} stands in row {before[0]} already"
                return _warning("duplicate-part-number", "part_number", part_number, None, detail)
        before = self._first("requirements", _text(requirement), (row, _text(part_number))) if requirement else None
        if before is None:
            return None
        designation, label = requirement.partition("\x1f")[0], str(before[1])
        detail = f"row {before[0]}, part {label or 'without number'}, asks for the same: {designation}"
        return _warning("duplicate-requirement", "designation", part_number, label, detail)

    def _first(self, table: str, key: str, value: tuple[Any, ...]) -> tuple[Any, ...] | None:
        """Return what the table holds of a key, or put the value in and return None."""
        places = ", ".join("?" * (1 + len(value)))
        done = self._database.execute(f"insert or ignore into {table} values ({places})", (key, *value))
        if done.rowcount:
            return None
        held = self._database.execute(f"select * from {table} where key = ?", (key,)).fetchone()
        return tuple(held[1:])


def _text(given: str) -> str:
    """SQLite takes no lone surrogates."""
    return given.encode("utf-8", "backslashreplace").decode()


def _warning(code: str, member: str, given: str, expected: str | None, detail: str) -> dict[str, Any]:
    return {
        "code": code,
        "severity": "warning",
        "member": member,
        "given": given,
        "expected": expected,
        "detail": detail,
        "basis": None,
    }


def _status(findings: list[dict[str, Any]]) -> str:
    if any(one["code"] == "unreadable" for one in findings):
        return "unreadable"
    severities = {one["severity"] for one in findings}
    return "invalid" if "error" in severities else "questionable" if "warning" in severities else "valid"
