"""Judges a column of measured readings: exact at every limit, vectorised in between."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .column_plan import ColumnPlan
from .findings import Mask, findings
from .readings import Column


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
