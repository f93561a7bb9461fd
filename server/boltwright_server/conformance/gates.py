"""The doubles that decide on readings: exact at every limit, in the unit of the readings, worked out once and kept."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..quantities import Bounds
from ..quantities.keeper import remembered
from ..quantities.units import factor
from .rules import DecisionRule, Regions, greatest_double, last_digit, least_double, regions


@dataclass(frozen=True, slots=True)
class Gate:
    """The regions of a rule and, for each edge, the last double on its own side; infinite where a side is open."""

    regions: Regions
    reject_up_to: float
    conforming_from: float
    conforming_up_to: float
    reject_from: float


def gate_of(
    limits: Bounds, unit: str, rule: DecisionRule, u: Fraction | None, stated: tuple[Fraction | None, ...] = ()
) -> Gate:
    """Return the doubles that decide on readings in `unit`; exact, and kept because the next piece asks again.

    `stated` holds the last stated digit of each limit, in the limits' unit, where their decimals do not tell it.
    """
    return _gate(str(limits.min), str(limits.max), limits.unit, unit, rule, u, stated)


@remembered(4096)
def _gate(
    least: str,
    most: str,
    stored: str,
    unit: str,
    rule: DecisionRule,
    u: Fraction | None,
    stated: tuple[Fraction | None, ...],
) -> Gate:
    # The limits are part of the key as text: 16.0 and 16.00 are equal numbers, but stated to different digits.
    low, high = (None if text == "None" else Decimal(text) for text in (least, most))
    step = 1 / factor(unit, stored)
    digits = stated or (last_digit(low, stored), last_digit(high, stored))
    quanta = (_scaled(digits[0], step), _scaled(digits[1], step))
    found = regions(rule, _scaled(low, step), _scaled(high, step), u, quanta)
    return Gate(
        found,
        -math.inf if found.reject_low is None else greatest_double(found.reject_low),
        _conforming_from(found),
        math.inf if found.conforming_high is None else greatest_double(found.conforming_high),
        math.inf if found.reject_high is None else least_double(found.reject_high),
    )


def _conforming_from(found: Regions) -> float:
    if not found.attainable:
        return math.inf
    return -math.inf if found.conforming_low is None else least_double(found.conforming_low)


def _scaled(limit: Decimal | Fraction | None, step: Fraction) -> Fraction | None:
    return None if limit is None else Fraction(limit) * step
