"""Readings that fail, and would conform if the decimal point or the unit were another: a slip of the pen, perhaps.

Said beside the verdict, never judged by.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities.units import CODES, dimension, factor
from .column_plan import ColumnPlan
from .statistics import Statistics

_POINTS = ((100, "two places"), (10, "one place"), (1000, "three places"))
#: A reading against one limit is likely up to this many times the limit, or down to this part of it.
_LIKELY = 3
_KINDS = ("length", "force", "stress")


def slip_of(plan: ColumnPlan, found: Statistics | None) -> str:
    """Return what the extreme reading outside the limits may have been meant to be; nothing where nothing fits."""
    low, high = plan.ends
    if found is None or (low is None and high is None) or plan.unit is None:
        return ""
    for reading in (found.max, found.min):
        value = Decimal(repr(reading))
        if value and not _within(value, low, high, False) and (told := _meant(value, plan)):
            return f"{reading:.15g} {plan.unit} would conform as {told}"
    return ""


def _meant(value: Decimal, plan: ColumnPlan) -> str:
    low, high = plan.ends
    for unit in _other_units(plan.unit or ""):
        step = factor(unit, plan.unit or "")
        if _within(value * step.numerator / step.denominator, low, high, True):
            return f"{value.normalize():f} {unit}"
    for times, places in _POINTS:
        for meant in (value / times, value * times):
            if _within(meant, low, high, True):
                return f"{meant.normalize():f} {plan.unit}, with the decimal point {places} away"
    return ""


def _other_units(unit: str) -> list[str]:
    """Units of the same kind that a reading may have been taken in."""
    kind = dimension(unit)
    return [code for code in CODES if code != unit and dimension(code) == kind] if kind in _KINDS else []


def _within(value: Decimal, low: Decimal | None, high: Decimal | None, likely: bool) -> bool:
    """Whether a reading conforms; against one limit a likely one is also not far beyond it."""
    if (low is not None and value < low) or (high is not None and value > high):
        return False
    if not likely or (low is not None and high is not None):
        return True
    return value <= low * _LIKELY if low is not None else high is not None and value * _LIKELY >= high
