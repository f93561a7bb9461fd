"""Judges a column of measured readings: exact at every limit, vectorised in between."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from ..quantities import Basis, Bounds, Contradiction, NotUnderstood, member_path
from ..quantities.units import factor
from ..specification import Characteristic
from .readings import Column
from .rules import DecisionRule, Regions, greatest_double, last_digit, least_double, regions

Mask = npt.NDArray[np.bool_]
_NONE: Mask = np.zeros(0, dtype=bool)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found of one column; masks have one entry a reading, unmeasured pieces are in neither."""

    limits: Bounds | None
    unit: str | None
    regions: Regions | None
    nonconforming: Mask
    undecided: Mask
    measured: Mask
    basis: Basis
    notices: tuple[str, ...] = ()

    def without_masks(self) -> Outcome:
        """Return what is needed of a block after it was counted: a lot of any size is judged in bounded memory."""
        return Outcome(self.limits, self.unit, self.regions, _NONE, _NONE, _NONE, self.basis, self.notices)


def judge_measured(characteristic: Characteristic, column: Column, rule: DecisionRule) -> Outcome:
    """Judge float64 readings against the limits of their characteristic.

    Raises:
        Contradiction: the unit does not fit. NotUnderstood: a guarded rule without uncertainty.
    """
    values = column.values
    assert isinstance(values, np.ndarray)
    limits, notices, decidable = _limits(characteristic, column)
    unit = column.unit or characteristic.reading_unit or limits.unit
    factor(unit, limits.unit, member_path("readings", column.id, "unit"))
    gate = gate_of(limits, unit, rule, uncertainty(column, rule), characteristic.stated)
    # NaN, a piece that was not measured, compares false everywhere and so is in no mask.
    measured = ~np.isnan(values)
    nonconforming = (values <= gate.reject_up_to) | (values >= gate.reject_from)
    conforming = (values >= gate.conforming_from) & (values <= gate.conforming_up_to)
    undecided = measured & ~(nonconforming | conforming)
    if not decidable:
        undecided, nonconforming = measured, np.zeros_like(measured)
    return Outcome(limits, unit, gate.regions, nonconforming, undecided, measured, limits.basis, notices)


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


def uncertainty(column: Column, rule: DecisionRule) -> Fraction | None:
    """Return u = U / k of the readings, exactly.

    Raises:
        NotUnderstood: a guarded rule without uncertainty.
    """
    u = column.standard_uncertainty
    if u is None and rule.rule == "guarded":
        raise NotUnderstood(
            f"{column.id}: a guarded rule needs expanded_uncertainty (0 is allowed)",
            member=member_path("readings", column.id, "expanded_uncertainty"),
            code="uncertainty_missing",
        )
    if u is None:
        return None
    assert column.expanded_uncertainty is not None
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


@lru_cache(maxsize=4096)
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
