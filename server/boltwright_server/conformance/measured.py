"""Judges a column of measured readings: exact at every limit, vectorised in between."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..specification import Characteristic
from .column_plan import ColumnPlan, column_plan
from .findings import Mask, findings
from .readings import Column
from .rules import DecisionRule


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


def judge_measured(characteristic: Characteristic, column: Column, rule: DecisionRule) -> Outcome:
    """Judge float64 readings against the limits of their characteristic.

    Raises:
        Contradiction: the unit does not fit. NotUnderstood: the scale has no such edition.
    """
    return judge_readings(column_plan(characteristic, column, rule), column)


def judge_readings(plan: ColumnPlan, column: Column) -> Outcome:
    """Judge the readings of a column whose plan is known."""
    assert isinstance(column.values, np.ndarray)
    measured, nonconforming, undecided = findings(plan, column.values)
    return Outcome(plan, nonconforming, undecided, measured, plan.notices)
