"""How far the readings stay from the nearest limit."""

from __future__ import annotations

from decimal import Decimal

from .column_plan import ColumnPlan


def margin(plan: ColumnPlan, least: float, greatest: float) -> float | None:
    """Return the least distance of a reading to its nearest limit, in the readings' unit; below zero outside.

    Exact for readings as written: the extremes decide.
    """
    low, high = plan.ends
    distances = []
    if low is not None:
        distances.append(Decimal(repr(least)) - low)
    if high is not None:
        distances.append(high - Decimal(repr(greatest)))
    return float(min(distances)) if distances else None
