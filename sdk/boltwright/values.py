"""Values that many results share: the basis of a figure, and bounds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

#: Bodies that join number and year by a dash; the others write a colon.
_DASHED = ("ASME", "ASTM")
_CAUTIONS = {"memory": "from memory", "conflict": "sources disagree"}


def cited(standard: str, edition: str) -> str:
    """Return number and edition as the body that publishes the standard joins them.

    ISO 4014:2011, ASME B1.1-2003. An edition in words stands in brackets, ASTM A325 (before 2016); none is `-`.
    """
    if edition == "-":
        return standard
    if not edition[:1].isdigit():
        return f"{standard} ({edition})"
    return f"{standard}{'-' if standard.startswith(_DASHED) else ':'}{edition}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """Where a figure comes from, and how it was checked."""

    standard: str
    edition: str
    clause: str
    method: str
    checked: str
    note: str | None = None

    @property
    def cited(self) -> str:
        """Standard and edition, as the trade cites them."""
        return cited(self.standard, self.edition)

    @property
    def caution(self) -> str:
        """What the reader of the figure must be told: it is from memory, or the sources disagree. Mostly empty."""
        return _CAUTIONS.get(self.checked, "")

    def __str__(self) -> str:
        """Return the citation, with its caution."""
        place = f"{self.cited}, {self.clause}"
        return f"{place} ({self.caution})" if self.caution else place


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """Least and greatest permissible value in `unit`; None is an open side.

    `min` and `max` are the doubles nearest to the stated limits, so that a float reading on a limit compares right;
    `exact_min` and `exact_max` are the limits as stated, with their decimals.
    """

    symbol: str | None = None
    min: float | None
    max: float | None
    nominal: float | None = None
    unit: str | None
    basis: Basis
    exact_min: Decimal | None = field(default=None, repr=False, metadata={"member": "min"})
    exact_max: Decimal | None = field(default=None, repr=False, metadata={"member": "max"})

    def __post_init__(self) -> None:
        if self.exact_min is None and self.min is not None:
            object.__setattr__(self, "exact_min", Decimal(repr(self.min)))
        if self.exact_max is None and self.max is not None:
            object.__setattr__(self, "exact_max", Decimal(repr(self.max)))

    @property
    def decimals(self) -> int:
        """How many decimals the limits are stated with."""
        stated = [limit.as_tuple().exponent for limit in (self.exact_min, self.exact_max) if limit is not None]
        return max((-exponent for exponent in stated if isinstance(exponent, int) and exponent < 0), default=0)

    def contains(self, reading: float | Decimal) -> bool:
        """Say whether a reading in `unit` lies within; one on a limit does, NaN does not. No decision rule is applied.

        Raises:
            TypeError: the reading is no number.
        """
        if isinstance(reading, bool) or not isinstance(reading, int | float | Decimal):
            raise TypeError(f"a reading is a number, not {type(reading).__name__}")
        if reading != reading:
            return False
        low, high = (self.min, self.max) if isinstance(reading, float) else (self.exact_min, self.exact_max)
        return (low is None or reading >= low) and (high is None or reading <= high)

    def __str__(self) -> str:
        """Return the limits as stated, with their unit."""
        low, high = (None if limit is None else f"{limit:f}" for limit in (self.exact_min, self.exact_max))
        if low is None and high is None:
            return "no limit"
        limits = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
        limits = low if low is not None and low == high else limits
        return f"{limits} {self.unit}" if self.unit and self.unit != "1" else limits


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedLimits:
    """Limits as an answer repeats them; with a basis where they are a characteristic's."""

    min: float | None = None
    max: float | None = None
    unit: str | None = None
    basis: Basis | None = None


def plain_number(value: Any, what: str = "the measured value") -> Any:
    """Return a number as JSON takes it: decimals as the double that states them; NaN is refused, nobody could read it.

    Raises:
        ValueError: NaN, Infinity, or a decimal with more digits than a double keeps; `what` names it.
    """
    if isinstance(value, Decimal):
        written = float(value)
        if Decimal(repr(written)) != value:
            raise ValueError(f"{what}: {value} has more digits than a JSON number keeps")
        return written
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"{what}: {value} is no reading; a piece that was not measured is None")
    return value


@dataclass(frozen=True, slots=True, kw_only=True)
class Deviation:
    """Where the purchaser asks for less than the standard; `used_limit` is None where it was dropped."""

    id: str
    standard_limit: Mapping[str, Any]
    used_limit: Mapping[str, Any] | None = None
    detail: str
    basis: Basis
