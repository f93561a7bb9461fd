"""Rows that repeat a part number or a requirement, in one stream or over the batches of one."""

from __future__ import annotations

from types import TracebackType
from typing import Self

from .duplicates import Seen
from .findings import Finding


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

    def finding(self, part_number: str, requirement: str, row: int) -> Finding | None:
        """Return the finding of a row that repeats an earlier one; a repeated part number hides the rest."""
        before = self._part_numbers.first(part_number, row, part_number) if part_number else None
        if before is not None:
            detail = f"part number {part_number} stands in row {before.row} already"
            return Finding("duplicate-part-number", "part_number", part_number, None, detail)
        before = self._requirements.first(requirement, row, part_number) if requirement else None
        if before is None:
            return None
        designation = requirement.partition("\x1f")[0]
        detail = f"row {before.row}, part {before.label or 'without number'}, asks for the same: {designation}"
        return Finding("duplicate-requirement", "designation", part_number, before.label, detail)
