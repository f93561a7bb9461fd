"""Rows that repeat a part number or a requirement of an earlier one, over all parts of a catalogue.

The service finds them within one request; across requests they are found here, by the same rule and in the same words.
What was seen lies in an SQLite file, so that memory stays bounded and a run can go on where it stopped.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from .passed_on import Answer

#: Rows put in together: so few that most hold no repeat and need no look.
_AT_ONCE = 16
#: KiB of memory for what was seen; the rest lies on the disk.
_CACHE = 32 * 1024

_TABLES = """
create table if not exists part_numbers (key text primary key, row integer not null) without rowid;
create table if not exists requirements (key text primary key, row integer not null, label text not null) without rowid;
"""


class Repeats:
    """Remembers the first row of every part number and requirement in a database of the caller."""

    def __init__(self, database: sqlite3.Connection) -> None:
        """Make the tables unless they are there; committing is the caller's matter."""
        self._database = database
        database.execute(f"pragma cache_size = -{_CACHE}")
        database.executescript(_TABLES)

    def mark(self, answer: Answer, first_row: int) -> None:
        """Add a finding to the rows that repeat an earlier one; answers come in the order of their rows."""
        numbers, asked = _texts(answer.part_numbers), _texts(answer.requirements)
        rows = range(first_row, first_row + len(numbers))
        by_number = self._earlier("part_numbers", [one for one in zip(numbers, rows, strict=True) if one[0]])
        # A row that repeats a part number is not compared further.
        compared = [one for one in zip(asked, rows, numbers, strict=True) if one[0] and one[1] not in by_number]
        by_requirement = self._earlier("requirements", compared)
        for row, (before, *_) in by_number.items():
            number = answer.part_numbers[row - first_row]
            detail = f"part number {number} stands in row {before} already"
            answer.mark(row - first_row, _warning("duplicate-part-number", "part_number", number, None, detail))
        for row, (before, label) in by_requirement.items():
            at = row - first_row
            designation = answer.requirements[at].partition("\x1f")[0]
            detail = f"row {before}, part {label or 'without number'}, asks for the same: {designation}"
            answer.mark(
                at, _warning("duplicate-requirement", "designation", answer.part_numbers[at], str(label), detail)
            )

    def _earlier(self, table: str, entries: Sequence[tuple[Any, ...]]) -> dict[int, tuple[Any, ...]]:
        """Put in what is new of (key, row, ...); return what is held instead, by the row of each other entry."""
        found = {}
        for start in range(0, len(entries), _AT_ONCE):
            some = entries[start : start + _AT_ONCE]
            places = ", ".join("?" * len(some[0]))
            done = self._database.executemany(f"insert or ignore into {table} values ({places})", some)
            for key, row, *_ in some if done.rowcount < len(some) else ():
                held = self._database.execute(f"select * from {table} where key = ?", (key,)).fetchone()
                if held[1] != row:
                    found[row] = held[1:]
        return found


def _texts(given: Sequence[str]) -> Sequence[str]:
    """SQLite takes no lone surrogates."""
    try:
        "".join(given).encode()
    except UnicodeEncodeError:
        return [one.encode("utf-8", "backslashreplace").decode() for one in given]
    return given


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
