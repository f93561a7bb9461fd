"""Compares answers with printed cells, to the last printed digit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from boltwright_server.quantities import Refusal

from .check import Cells, Check

NO_VALUE = "-"


@dataclass(frozen=True)
class Within:
    """Agrees with a cell that was printed from other intermediate roundings, to a stated margin."""

    value: Decimal
    margin: Decimal

    @classmethod
    def of(cls, value: float, margin: str) -> Within:
        return cls(Decimal(repr(value)), Decimal(margin))

    def agrees(self, cell: str) -> bool:
        return abs(self.value - Decimal(cell)) <= self.margin


@dataclass(frozen=True)
class Rounded:
    """Agrees once rounded to the digits that are printed."""

    value: Fraction | float

    def agrees(self, cell: str) -> bool:
        exact = Fraction(self.value)
        printed = Decimal(exact.numerator) / Decimal(exact.denominator)
        return printed.quantize(Decimal(cell), rounding=ROUND_HALF_UP) == Decimal(cell)


@dataclass(frozen=True)
class Differs:
    """A listed disagreement: the printed cell is known to be another number, and must still be."""

    value: Decimal

    def agrees(self, cell: str) -> bool:
        return self.value != Decimal(cell)


Answer = Mapping[str, object]
Question = Callable[[Cells, Check], Answer]


def exception_holds(row: Cells, follows_rule: bool) -> str:
    """Return the exception that a row names while the table departs from its rule, and no value where it follows it."""
    if follows_rule:
        return NO_VALUE
    return row["exception"] if row["exception"] != NO_VALUE else "an exception that the row does not name"


def mismatches(check: Check, question: Question) -> list[str]:
    """Return one line for each expected cell with which the answer does not agree."""
    found = []
    for number, row in enumerate(check.rows, start=2):
        asked = ", ".join(row[column] for column in check.ask)
        where = f"{check.id}, row {number} ({asked})"
        try:
            answer = question(row, check)
        except Refusal as refusal:
            found.append(f"{where}: refused: {refusal.detail}")
            continue
        found.extend(
            f"{where}: {column} is printed {row[column]}, answered {answer[column]}"
            for column in check.expected
            if not (row[column] == NO_VALUE and check.dash == "not printed")
            if not _agrees(answer[column], row[column])
        )
    return found


def _agrees(value: object, cell: str) -> bool:
    if isinstance(value, str):
        return value == cell
    if value is None or cell == NO_VALUE:
        return value is None and cell == NO_VALUE
    if isinstance(value, Within | Rounded | Differs):
        return value.agrees(cell)
    if isinstance(value, Fraction):
        return value == Fraction(cell)
    return value == Decimal(cell)
