"""Limits of one characteristic."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from .basis import Basis


@dataclass(frozen=True, slots=True)
class Bounds:
    """Least and greatest permissible value, both permissible themselves; `None` is an open side.

    Decimals keep the digits of their standard. `unit` is one of `units.CODES`.
    """

    symbol: str
    min: Decimal | None
    max: Decimal | None
    unit: str
    basis: Basis
    nominal: Decimal | None = None

    def __post_init__(self) -> None:
        if self.min is not None and self.max is not None and self.min > self.max:
            raise ValueError(f"{self.symbol}: min {self.min} exceeds max {self.max}")
