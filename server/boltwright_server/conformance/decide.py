"""What readings are found to be: the one place where they are compared with limits, exact at every limit.

No guard band applies to yes-or-no results and words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, overload

import numpy as np
import numpy.typing as npt

from .column_plan import ColumnPlan, Gate
from .readings import Column, Floats

Mask = npt.NDArray[np.bool_]


@overload
def findings(plan: ColumnPlan, readings: float, gate: Gate | None = None) -> tuple[bool, bool, bool]: ...
@overload
def findings(plan: ColumnPlan, readings: Floats, gate: Gate | None = None) -> tuple[Mask, Mask, Mask]: ...
def findings(plan: ColumnPlan, readings: Any, gate: Gate | None = None) -> Any:
    """Return whether readings were measured, are nonconforming, are undecided.

    NaN, a piece that was not measured, compares false everywhere and so is none of the three. `gate` is that of the
    plan unless another is given.
    """
    gate = gate or plan.gate
    assert gate is not None
    measured = readings == readings
    if not plan.decidable:
        return measured, measured & False, measured
    nonconforming = (readings <= gate.reject_up_to) | (readings >= gate.reject_from)
    conforming = (readings >= gate.conforming_from) & (readings <= gate.conforming_up_to)
    return measured, nonconforming, measured ^ (nonconforming | conforming)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found of one column; masks have one entry a reading, unmeasured pieces are in neither."""

    plan: ColumnPlan
    nonconforming: Mask
    undecided: Mask
    measured: Mask
    notices: tuple[str, ...] = ()
    #: Why readings are undecided, where neither the guard band nor the plan of the column is the reason.
    doubt: str | None = None
    #: Below a minimum that is guidance: nonconforming, or undecided, only where that minimum binds after all.
    guided: Mask | None = None
    guided_undecided: Mask | None = None


def judge_readings(plan: ColumnPlan, column: Column) -> Outcome:
    """Judge the readings of a column whose plan is known."""
    assert isinstance(column.values, np.ndarray)
    measured, nonconforming, undecided = findings(plan, column.values)
    free = plan.gate_without_minimum
    if free is not None:
        _, above, doubtful = findings(plan, column.values, free)
        guided = nonconforming & ~above
        return Outcome(plan, above, doubtful, measured, plan.notices, guided=guided, guided_undecided=undecided)
    return Outcome(plan, nonconforming, undecided, measured, plan.notices)


def judge_attribute(plan: ColumnPlan, column: Column) -> Outcome:
    """Judge true / false (the requirement is met / is not) or words against those allowed."""
    fails = np.array(refused(plan, list(column.values)), dtype=np.bool_)
    return Outcome(plan, fails, np.zeros_like(fails), column.measured_mask())


def refused(plan: ColumnPlan, values: Sequence[object]) -> list[bool]:
    """Return which results are not among those allowed; None, a piece that was not tested, is not refused."""
    allowed = plan.characteristic.allowed
    return [value is not None and value not in allowed for value in values]


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
