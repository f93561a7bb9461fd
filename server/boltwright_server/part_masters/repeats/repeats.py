"""Rows that repeat a part number or a requirement, in one stream or over the batches of one."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import compress
from types import TracebackType
from typing import Self

from ..meaning.findings import Finding
from .duplicates import First, Seen


class Repeats:
    """Remembers the part numbers and requirements of a whole stream, in bounded memory; rows are asked in order."""

    def __init__(self) -> None:
        """Start with nothing seen."""
        self._part_numbers = Seen()
        self._requirements = Seen()

    def __enter__(self) -> Self:
        """Return itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Give temporary files back."""
        self._part_numbers.__exit__(kind, error, trace)
        self._requirements.__exit__(kind, error, trace)

    def findings(
        self, part_numbers: Sequence[str], requirements: Sequence[str], rows: Sequence[int]
    ) -> dict[int, Finding]:
        """Return the findings of rows that repeat earlier ones, by row; a repeated part number hides the rest.

        The three columns of a block of rows; an empty text repeats nothing.
        """
        named, at = list(compress(part_numbers, part_numbers)), list(compress(rows, part_numbers))
        known = self._part_numbers.firsts(named, at, named)
        if known:
            requirements = ["" if row in known else one for one, row in zip(requirements, rows, strict=True)]
        asked, at = list(compress(requirements, requirements)), list(compress(rows, requirements))
        same = self._requirements.firsts(asked, at, list(compress(part_numbers, requirements)))
        if not known and not same:
            return {}
        by_row = dict(zip(rows, zip(part_numbers, requirements, strict=True), strict=True))
        return {
            **{row: _same_number(by_row[row][0], first) for row, first in known.items()},
            **{row: _same_requirement(*by_row[row], first) for row, first in same.items()},
        }


def _same_number(part_number: str, first: First) -> Finding:
    detail = f"part number {part_number} stands in row {first.row} already"
    return Finding("duplicate-part-number", "part_number", part_number, None, detail)


def _same_requirement(part_number: str, requirement: str, first: First) -> Finding:
    designation = requirement.partition("\x1f")[0]
    detail = f"row {first.row}, part {first.label or 'without number'}, asks for the same: {designation}"
    return Finding("duplicate-requirement", "designation", part_number, first.label, detail)
