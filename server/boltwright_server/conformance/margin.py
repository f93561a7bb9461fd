"""How far the readings stay from the nearest limit."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from ..quantities import Bounds
from ..quantities.units import factor
from .readings import Floats


def margin(ordered: Floats, limits: Bounds | None, unit: str | None) -> float | None:
    """Return the least distance of a reading to its nearest limit, in the readings' unit; below zero outside.

    `ordered` holds the measured readings in ascending order. Exact for readings as written: the extremes decide.
    """
    if limits is None or not ordered.size:
        return None
    low, high = _in_unit(limits, unit or limits.unit)
    distances = []
    if low is not None:
        distances.append(Decimal(repr(float(ordered[0]))) - low)
    if high is not None:
        distances.append(high - Decimal(repr(float(ordered[-1]))))
    return float(min(distances)) if distances else None


@lru_cache(maxsize=4096)
def _in_unit(limits: Bounds, unit: str) -> tuple[Decimal | None, Decimal | None]:
    """Return the limits in the unit of the readings, to more digits than a double has."""
    step = factor(limits.unit, unit)
    low, high = (
        None if side is None else side * step.numerator / step.denominator for side in (limits.min, limits.max)
    )
    return low, high
