"""What must be marked on a part of a class: place, symbol, threshold, from the marking table of its standard."""

from __future__ import annotations

from decimal import Decimal
from fnmatch import fnmatchcase

from ..standards import Row, Standard
from .answer import Mark

_REQUIRED = "manufacturer's identification mark beside the symbol"


def marks_of(facts: Standard, kind: str, d: Decimal, code: str, symbol: str | None = None) -> tuple[Mark, ...]:
    """Return the marks of a part; none where the standard asks for none at that size or class.

    `kind` is a row of the standard's marking table: hexagon, flange, socket, stud, nut ...
    """
    row = facts.table("marking").find(kind)
    if row is None or d < row.number("d_min") or not _covers(row, code):
        return ()
    notes = [_REQUIRED]
    if (alternative := row.word("alternative")) != "-":
        notes.append(f"alternative: {alternative}")
    return (Mark(row.word("place"), symbol or code, "; ".join(notes), row.basis("d_min")),)


def _covers(row: Row, code: str) -> bool:
    patterns = row.word("classes")
    return patterns in ("all", "*") or any(fnmatchcase(code, pattern) for pattern in patterns.split())
