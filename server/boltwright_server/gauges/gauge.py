"""What every gauge standard answers with."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis


@dataclass(frozen=True, slots=True)
class GaugeDimension:
    """Limits of a new gauge in mm and the size at which a used one is worn out; `None` is an open side."""

    symbol: str
    min: Decimal | None
    max: Decimal | None
    unit: str
    basis: Basis
    wear_limit: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Gauge:
    """One gauge. `member` is what it checks: the external or internal thread, or another gauge."""

    id: str
    name: str
    member: str
    checks: str
    application: str
    dimensions: dict[str, GaugeDimension]


@dataclass(frozen=True, slots=True)
class NotHeld:
    """A gauge of the standard for which no value is published here, and why."""

    id: str
    reason: str


@dataclass(frozen=True, slots=True)
class GaugeSet:
    """All gauges of one thread under one gauge standard."""

    gauge_standard: str
    gauges: tuple[Gauge, ...]
    not_covered: tuple[NotHeld, ...]
    notices: tuple[str, ...]
