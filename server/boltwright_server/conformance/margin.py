"""How far the readings stay from the nearest limit."""

from __future__ import annotations

from decimal import Decimal

from .column_plan import ColumnPlan


def margin(plan: ColumnPlan, least: float, greatest: float) -> float | None:
    """Return the least distance of a reading to its nearest limit, in the readings' unit; below zero outside.

    Exact for readings as written: the extremes decide.
    """
    low, high = plan.ends
    lowest = Decimal(repr(least))
    highest = lowest if greatest == least else Decimal(repr(greatest))
    distances = [lowest - low] if low is not None else []
    distances += [high - highest] if high is not None else []
    return float(min(distances)) if distances else None
