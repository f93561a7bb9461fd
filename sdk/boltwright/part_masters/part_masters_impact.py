"""POST /v1/part-masters/impact: what a change of standard, edition or coating does to a catalogue."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..decoding import Result, check_numbers
from ..transport import Connection
from ..values import Bounds

PATH = "/v1/part-masters/impact"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One requirement before and after; `meets`: what meets the new one meets the old one too."""

    id: str
    group: str
    before: Bounds | None = None
    after: Bounds | None = None
    before_text: str | None = None
    after_text: str | None = None
    converted: Bounds | None = None
    direction: str
    meets: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ImpactRow:
    """One row back. `effect`: changes, untouched, no_counterpart or not_judged; `reasons` says why."""

    part_number: str
    row: int
    designation: str | None = None
    effect: str
    to_designation: str | None = None
    differences: tuple[Difference, ...] = ()
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One side of the change, as it was understood."""

    name: str
    held: bool
    reason: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMastersImpact(Result):
    """All rows back, in order, and what they come to."""

    change: Mapping[str, Side]
    part_masters: tuple[ImpactRow, ...]
    summary: Mapping[str, Any]


def part_masters_impact(
    connection: Connection, before: str, after: str, part_masters: Sequence[Mapping[str, Any]]
) -> PartMastersImpact:
    """Return what a change does to every row; `validation.impact.impact_file` is for whole files.

    Args:
        before: a standard (`DIN 933`, `ISO 4014:2011`) or a coating (`tZn`, `none`) that parts have now.
        after: the one that they are to have.
        part_masters: rows as `part_masters_validation` takes them.

    Raises:
        NotFoundError: no such standard or coating. InvalidRequestError: sides that cannot follow one another. Others:
            see `boltwright.errors`.
    """
    body = {"change": {"from": before, "to": after}, "part_masters": [dict(row) for row in part_masters]}
    found = connection.post(PartMastersImpact, PATH, body)
    check_numbers([row.row for row in found.part_masters], 0, len(part_masters))
    return found
