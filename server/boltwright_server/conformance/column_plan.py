"""How one column is judged, before any reading is seen: limits, unit, rule and the doubles that decide."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from ..quantities import Basis, Bounds, Contradiction, NotUnderstood, member_path
from ..quantities.keeper import remembered
from ..quantities.units import factor
from ..specification import Characteristic
from .readings import Column
from .rules import DecisionRule, Regions, greatest_double, last_digit, least_double, regions


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class ColumnPlan:
    """What the readings of a column do not change. `gate` is None for results that are not measured."""

    characteristic: Characteristic
    rule: DecisionRule
    limits: Bounds | None
    basis: Basis
    #: Of the readings; None where they have none.
    unit: str | None = None
    gate: Gate | None = None
    #: The same without the minimum, where the minimum is guidance; else None.
    gate_without_minimum: Gate | None = None
    #: False where the sources disagree on the limits: nothing is decided.
    decidable: bool = True
    notices: tuple[str, ...] = ()
    #: The limits in `unit`, to more digits than a double has, and as the nearest doubles.
    ends: tuple[Decimal | None, Decimal | None] = (None, None)
    doubles: tuple[float | None, float | None] = (None, None)

    @property
    def regions(self) -> Regions | None:
        """Where a reading conforms and where not, in `unit`."""
        return None if self.gate is None else self.gate.regions


def column_plan(characteristic: Characteristic, column: Column, rule: DecisionRule) -> ColumnPlan:
    """Return how the readings of `column` are judged; looks at its settings, never at its readings.

    Raises:
        Contradiction: the unit does not fit. NotUnderstood: the scale has no such edition.
    """
    if characteristic.kind != "measured":
        return ColumnPlan(characteristic, rule, characteristic.bounds, characteristic.basis)
    limits, notices, decidable = _limits(characteristic, column)
    unit = column.unit or characteristic.reading_unit or limits.unit
    factor(unit, limits.unit, member_path("readings", column.id, "unit"))
    gate = gate_of(limits, unit, rule, uncertainty(column), characteristic.stated)
    step = factor(limits.unit, unit)
    free = None
    if characteristic.guidance is not None and decidable:
        free = gate_of(replace(limits, min=None), unit, rule, uncertainty(column), characteristic.stated)
    return ColumnPlan(
        characteristic,
        rule,
        limits,
        limits.basis,
        unit,
        gate,
        free,
        decidable,
        notices,
        (_end(limits.min, step), _end(limits.max, step)),
        (_double(limits.min, step), _double(limits.max, step)),
    )


def _end(limit: Decimal | None, step: Fraction) -> Decimal | None:
    return None if limit is None else limit * step.numerator / step.denominator


def _double(limit: Decimal | None, step: Fraction) -> float | None:
    return None if limit is None else float(Fraction(limit) * step)


def _limits(characteristic: Characteristic, column: Column) -> tuple[Bounds, tuple[str, ...], bool]:
    """Return the limits on the scale of the readings; whether they may decide."""
    if not characteristic.scales:
        assert characteristic.bounds is not None
        return characteristic.bounds, (), True
    scale = column.unit or next(iter(characteristic.scales))
    if scale not in characteristic.scales:
        raise Contradiction(
            f"{column.id} has no limits in {scale} for this class; judge it in {', '.join(characteristic.scales)}",
            member=member_path("readings", column.id, "unit"),
            code="unit_does_not_fit",
        )
    disputed = characteristic.disputed.get(scale)
    if disputed is None:
        return characteristic.scales[scale], (), True
    if column.edition is None:
        notice = (
            f"{column.id}: the sources disagree on the {scale} limits of this class; nothing is decided on that "
            f"scale unless the column names an edition ({', '.join(disputed)})"
        )
        return characteristic.scales[scale], (notice,), False
    if column.edition not in disputed:
        raise NotUnderstood(
            f"edition {column.edition!r}: the {scale} limits are held for {', '.join(disputed)}",
            member=member_path("readings", column.id, "edition"),
        )
    return disputed[column.edition], (), True


def uncertainty(column: Column) -> Fraction | None:
    """Return u = U / k of the readings, exactly; None where no uncertainty is stated."""
    if column.expanded_uncertainty is None:
        return None
    return Fraction(column.expanded_uncertainty) / Fraction(column.coverage_factor)


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
