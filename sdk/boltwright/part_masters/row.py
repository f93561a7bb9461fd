"""A part master as it comes back: what was read, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What is wrong with a row, what the standard says, and where."""

    code: str
    severity: str
    member: str
    detail: str
    given: str | None = None
    expected: str | None = None
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMaster:
    """One row back; `designation` is None where the product is not certain, then see `alternatives`."""

    part_number: str
    row: int
    status: str
    designation: str | None
    confidence: float
    alternatives: tuple[str, ...] = ()
    used: tuple[str, ...] = ()
    left_over: tuple[str, ...] = ()
    proposed: Mapping[str, str] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
