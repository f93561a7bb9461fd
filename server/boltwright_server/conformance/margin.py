"""How far the readings stay from the nearest limit."""

from __future__ import annotations

from fractions import Fraction

from ..quantities import Bounds
from ..quantities.units import factor
from .readings import Floats


def margin(ordered: Floats, limits: Bounds | None, unit: str | None) -> float | None:
    """Return the least distance of a reading to its nearest limit, in the readings' unit; below zero outside.

    `ordered` holds the measured readings in ascending order. Exact for readings as written: the extremes decide.
    """
    if limits is None or not ordered.size:
        return None
    step = factor(limits.unit, unit or limits.unit)
    distances = []
    if limits.min is not None:
        distances.append(Fraction(repr(float(ordered[0]))) - Fraction(limits.min) * step)
    if limits.max is not None:
        distances.append(Fraction(limits.max) * step - Fraction(repr(float(ordered[-1]))))
    if not distances:
        return None
    least = min(distances)
    return least.numerator / least.denominator
