"""What every gauge standard answers with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from ..quantities import Basis

#: mm are shown as um, to the tenth on which gauge limits stand; inches stay inches.
_OFFSET_UNITS = {"mm": ("um", Decimal(1000), Decimal("0.1")), "in": ("in", Decimal(1), None)}


@dataclass(frozen=True, slots=True)
class Zone:
    """Where the limits of a gauge lie against the product limit that it guards, as offsets from that limit.

    `outside` is how far a gauge that is still permitted may lie outside the product tolerance: a part may pass it and
    measure that far beyond the limit. `inward` is the sign of the way from the limit into the product tolerance. For a
    gauge that checks gauges `outside` is None and `inward` 0.
    """

    product_limit: str
    at: Decimal
    inward: int
    low: Decimal
    high: Decimal
    wear: Decimal | None
    outside: Decimal | None
    unit: str


@dataclass(frozen=True, slots=True)
class GaugeDimension:
    """Limits of a new gauge in mm or in and the size at which a used one is worn out; `None` is an open side."""

    symbol: str
    min: Decimal | None
    max: Decimal | None
    unit: str
    basis: Basis
    wear_limit: Decimal | None = None
    wear_basis: Basis | None = None
    zone: Zone | None = None

    def against(self, product_limit: str, at: Decimal, inward: int) -> GaugeDimension:
        """Return the dimension with its zone."""
        assert self.min is not None
        assert self.max is not None
        unit, scale, resolution = _OFFSET_UNITS[self.unit]

        def offset(end: Decimal) -> Decimal:
            found = (end - at) * scale
            return found if resolution is None else found.quantize(resolution)

        low, high = offset(self.min), offset(self.max)
        wear = None if self.wear_limit is None else offset(self.wear_limit)
        ends = [low, high] if wear is None else [low, high, wear]
        outside = max(Decimal(0), *(-inward * end for end in ends)) if inward else None
        return replace(self, zone=Zone(product_limit, at, inward, low, high, wear, outside, unit))


@dataclass(frozen=True, slots=True)
class Gauge:
    """One gauge. `member` is what it checks: the external or internal thread, or another gauge.

    `turns_allowed` is how far a NOT GO gauge may enter; None where it must go all the way, or not pass at all.
    `wears` is the way in which use changes its diameters.
    """

    id: str
    name: str
    member: str
    checks: str
    application: str
    dimensions: dict[str, GaugeDimension]
    turns_allowed: int | None = None
    wears: Literal["smaller", "larger"] = "smaller"


@dataclass(frozen=True, slots=True)
class NotHeld:
    """A gauge of the standard for which no value is published here, and why."""

    id: str
    reason: str


@dataclass(frozen=True, slots=True)
class GaugeSet:
    """All gauges of one member of a thread under one gauge standard."""

    gauge_standard: str
    gauges: tuple[Gauge, ...]
    not_covered: tuple[NotHeld, ...]
    notices: tuple[str, ...]
