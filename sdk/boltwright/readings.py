"""Columns of readings, and how they are written as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from decimal import Decimal
from typing import Any

from .values import plain_number

Reading = float | Decimal | bool | str | None


@dataclass(frozen=True, slots=True)
class Column:
    """Readings of one characteristic, index = piece, None = not measured, with what stands beside them.

    `pieces` numbers the pieces where they are not 0, 1, 2 ...; `expanded_uncertainty` is in the unit of the readings.
    `edition` settles limits on which sources disagree; `repeated` says how several readings of one piece count (each,
    mean); `replaced` gives, by piece, why its test was void; `instrument` and `measured_at` (RFC 3339), of the column
    or one for each reading, are recorded.
    """

    values: Iterable[Reading]
    unit: str | None = None
    expanded_uncertainty: float | Decimal | None = None
    coverage_factor: float | None = None
    decision_rule: str | Mapping[str, str] | None = None
    pieces: Sequence[int] | None = None
    edition: str | None = None
    repeated: str | None = None
    replaced: Mapping[int, str] | None = None
    instrument: str | Sequence[str | None] | None = None
    measured_at: str | Sequence[str | None] | None = None


def written_column(id: str, given: Column | Iterable[Reading] | Mapping[str, Any]) -> Any:
    """Return the JSON of a column.

    Raises:
        ValueError: NaN, Infinity, a decimal with more digits than JSON numbers keep, or no list at all.
    """
    if isinstance(given, Column):
        given = {one.name: getattr(given, one.name) for one in fields(given) if getattr(given, one.name) is not None}
    if not isinstance(given, Mapping):
        return written_values(id, given)
    column = {name: plain_number(value, f"readings of {id}") for name, value in given.items()}
    for name in ("values", "pieces"):
        if name in column:
            column[name] = written_values(id, given[name])
    return column


def values_of(given: Column | Iterable[Reading] | Mapping[str, Any]) -> list[Any]:
    """Return the readings of a column, however it is given."""
    values = given.values if isinstance(given, Column) else given["values"] if isinstance(given, Mapping) else given
    return list(values.tolist() if hasattr(values, "tolist") else values)


def written_values(id: str, values: Any) -> list[Any]:
    """Return the JSON of a list of readings; arrays and series hand out plain numbers themselves.

    Raises:
        ValueError: as `written_column`.
    """
    listed = values.tolist() if hasattr(values, "tolist") else values
    if isinstance(listed, str) or not isinstance(listed, Iterable):
        raise ValueError(f"readings of {id} are a list of values, not {listed!r}")
    return [plain_number(value, f"readings of {id}") for value in listed]
