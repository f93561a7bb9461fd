"""How one column is judged, before any reading is seen: limits, unit, rule and the doubles that decide."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from ..quantities import Basis, Bounds, Contradiction, NotUnderstood, member_path
from ..quantities.units import factor
from ..specification import Characteristic
from .gates import Gate, gate_of
from .readings import Column
from .rules import DecisionRule, Regions


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
