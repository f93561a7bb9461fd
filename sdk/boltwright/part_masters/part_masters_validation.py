"""POST /v1/part-masters/validation: a whole catalogue of part masters, checked row by row."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..decoding import Result, check_numbers
from ..transport import Connection
from .row import Finding, PartMaster
from .validation.rows import PATH, ValidatedRows

__all__ = ["Finding", "PartMaster", "PartMastersValidation", "part_masters_validation", "part_masters_validation_iter"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMastersValidation(Result):
    """All rows back, in order, and what they come to; `summary["columns_not_read"]` names members not read."""

    part_masters: tuple[PartMaster, ...]
    summary: Mapping[str, Any]


def part_masters_validation(connection: Connection, part_masters: Sequence[Mapping[str, Any]]) -> PartMastersValidation:
    """Return the findings of every row; `part_masters_validation_iter` is for catalogues beyond some thousand rows.

    Args:
        part_masters: rows with part_number, description or designation, and any stored figures by their ids.

    Raises:
        InvalidRequestError: the request as such cannot be read; a bad row never is an error. Others: see
            `boltwright.errors`.
    """
    body = {"part_masters": [dict(row) for row in part_masters]}
    found = connection.post(PartMastersValidation, PATH, body)
    check_numbers([row.row for row in found.part_masters], 0, len(part_masters))
    return found


def part_masters_validation_iter(
    connection: Connection, part_masters: Iterable[Mapping[str, Any]], batch: int = 2000
) -> ValidatedRows:
    """Yield the findings of every row while the rows come: for catalogues of any length, in bounded memory.

    Rows are sent `batch` at a time; rows that repeat an earlier one are found over all of them. `columns` of
    what comes back says which members were read, and which were not.

    Args:
        part_masters: rows as above, a list or a generator; it is read as results are taken.

    Raises:
        ValueError, TypeError: a row cannot be written as JSON. Others: as above, when the batch is sent.
    """
    return ValidatedRows(connection, part_masters, batch)
