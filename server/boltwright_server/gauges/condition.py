"""Judges one measured diameter of a gauge: as new, used but fit, worn, or out of its limits.

The limits of the gauge standard; a measured size equal to a limit is within it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from ..quantities import NotCovered, NotUnderstood, UnknownName, near_names
from ..quantities.units import factor
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld

#: A gauge that differs by more than this part of its size is no worn gauge: the value or its unit is wrong.
_FARTHEST = Fraction(1, 10)
Status = Literal["fit_for_use", "worn", "out_of_new_limits"]


@dataclass(frozen=True, slots=True)
class Condition:
    """What a measured size of a gauge means.

    `remaining_wear` is how far the size may still move in the way of wear, in the gauge's unit: negative for a worn
    gauge, None where the standard gives no wear limit or the gauge was made wrong. `passes_outside` is how far this
    gauge lies outside the product tolerance: a part may pass it and measure that far beyond the product limit.
    """

    gauge: Gauge
    dimension: GaugeDimension
    measured: Fraction
    status: Status
    within_new_limits: bool
    remaining_wear: Fraction | None
    passes_outside: Fraction | None
    reasons: tuple[str, ...]


def find_gauge(sets: list[GaugeSet], id: str) -> Gauge:
    """Return a gauge of a thread by its id.

    Raises:
        NotCovered: the standard has the gauge, and no value of it is published here.
        UnknownName: there is no such gauge for the thread; carries the known ids.
    """
    gauges = {gauge.id: gauge for one in sets for gauge in one.gauges}
    if id in gauges:
        return gauges[id]
    held_back: dict[str, NotHeld] = {held.id: held for one in sets for held in one.not_covered}
    if id in held_back:
        raise NotCovered(f"{id}: {held_back[id].reason}", member="gauge")
    raise UnknownName(
        f"{sets[0].gauge_standard} has no gauge {id!r} for this thread; it has {', '.join(gauges)}",
        member="gauge",
        code="unknown_gauge",
        nearest=near_names(id, gauges, slips=len(id)),
    )


def find_dimension(gauge: Gauge, id: str) -> GaugeDimension:
    """Return a dimension of a gauge.

    Raises:
        UnknownName: the gauge has no such dimension; carries those it has.
    """
    if id not in gauge.dimensions:
        raise UnknownName(
            f"{gauge.id} has no {id!r}; it has {', '.join(gauge.dimensions)}",
            member="dimension",
            code="unknown_gauge",
            nearest=near_names(id, gauge.dimensions, slips=len(id)),
        )
    return gauge.dimensions[id]


def condition(gauge: Gauge, dimension_id: str, value: Decimal, unit: str) -> Condition:
    """Judge a measured size.

    Raises:
        UnknownName: no such dimension or unit.
        Contradiction: the unit measures something else.
        NotUnderstood: no size that this gauge could have; mostly another unit than was meant.
    """
    dimension = find_dimension(gauge, dimension_id)
    measured = Fraction(value) * factor(unit, dimension.unit, "measured/unit")
    if dimension_id.endswith("diameter"):
        _check_size(gauge, dimension, measured, f"{value} {unit}")
    sign = 1 if gauge.wears == "larger" else -1
    new = _within(measured, dimension.min, dimension.max)
    remaining = None if dimension.wear_limit is None else sign * (Fraction(dimension.wear_limit) - measured)
    status = _status(measured, dimension, sign, new, remaining)
    remaining = None if status == "out_of_new_limits" else remaining
    outside = _outside(measured, dimension)
    return Condition(
        gauge,
        dimension,
        measured,
        status,
        new,
        remaining,
        outside,
        tuple(_reasons(gauge, dimension, status, new, outside)),
    )


def _check_size(gauge: Gauge, dimension: GaugeDimension, measured: Fraction, written: str) -> None:
    near = next(side for side in (dimension.max, dimension.min) if side is not None)
    if abs(measured - Fraction(near)) > Fraction(near) * _FARTHEST:
        raise NotUnderstood(
            f"{written} cannot be the {dimension.symbol} of this {gauge.name}, which is about {near} {dimension.unit}: "
            "check value and unit",
            member="measured/value",
            code="out_of_range",
        )


def _within(measured: Fraction, low: Decimal | None, high: Decimal | None) -> bool:
    return (low is None or measured >= Fraction(low)) and (high is None or measured <= Fraction(high))


def _status(measured: Fraction, dimension: GaugeDimension, sign: int, new: bool, remaining: Fraction | None) -> Status:
    if remaining is not None and remaining < 0:
        return "worn"
    edge = dimension.min if sign > 0 else dimension.max
    made_wrong = edge is not None and sign * (measured - Fraction(edge)) < 0
    if new or (remaining is not None and not made_wrong):
        return "fit_for_use"
    return "out_of_new_limits"


def _outside(measured: Fraction, dimension: GaugeDimension) -> Fraction | None:
    zone = dimension.zone
    if zone is None or zone.inward == 0:
        return None
    return max(Fraction(0), -zone.inward * (measured - Fraction(zone.at)))


def _reasons(gauge: Gauge, dimension: GaugeDimension, status: Status, new: bool, outside: Fraction | None) -> list[str]:
    limits = f"{_shown(dimension.min)} to {_shown(dimension.max)} {dimension.unit}"
    worn = "" if dimension.wear_limit is None else f", wear limit {dimension.wear_limit} {dimension.unit}"
    said = {
        "fit_for_use": "within the limits of a new gauge" if new else "used, and within the wear limit",
        "worn": "beyond the wear limit: withdraw it",
        "out_of_new_limits": "outside the limits of a new gauge, and not by permitted wear: do not use it",
    }[status]
    reasons = [f"{gauge.name}: {said} (new {limits}{worn})."]
    if status == "fit_for_use" and outside and dimension.zone is not None:
        reasons.append(
            f"This gauge is permitted and lies {_decimal(outside)} {dimension.unit} outside "
            f"{dimension.zone.product_limit} = {dimension.zone.at} {dimension.unit}: a part may pass gauging with it "
            "and measure outside its limits. Report both results, and infer neither from the other."
        )
    return reasons


def _shown(limit: Decimal | None) -> str:
    return "no limit" if limit is None else str(limit)


def _decimal(value: Fraction) -> Decimal:
    return (Decimal(value.numerator) / Decimal(value.denominator)).quantize(Decimal("0.000001")).normalize()
